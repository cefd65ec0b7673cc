/** Kinds of elastic, as the suit file names them. */
export const ELASTICS = [
  { value: "braided-rubber", says: "Braided rubber" },
  { value: "flat-rubber", says: "Flat rubber" },
  { value: "braided-polyester", says: "Braided polyester" },
  { value: "knitted", says: "Knitted" },
  { value: "woven", says: "Woven" },
  { value: "clear-polyurethane", says: "Clear polyurethane" },
  { value: "fold-over", says: "Fold-over" },
  { value: "plush", says: "Plush" },
  { value: "strap", says: "Strap" },
  { value: "gripper", says: "Gripper" },
] as const;
