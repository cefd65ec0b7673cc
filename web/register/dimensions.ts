/**
 * Names of the dimensions for a wearer's own page, in the order they are taken. In a suit the studio names them itself, for
 * the body at hand.
 *
 * **Source.** ISO 8559-1 where it has the dimension, from memory; the keys are those of the suit file.
 */

/** Key and name. */
export const DIMENSIONS: readonly (readonly [string, string])[] = [
  ["stature", "Stature"],
  ["bust_girth", "Bust girth, or chest"],
  ["upper_chest_girth", "Upper chest girth"],
  ["underbust_girth", "Underbust girth"],
  ["waist_girth", "Waist girth"],
  ["high_hip_girth", "High hip girth"],
  ["hip_girth", "Hip girth"],
  ["thigh_girth", "Thigh girth"],
  ["neck_base_girth", "Neck base girth"],
  ["shoulder_girth", "Shoulder girth"],
  ["armscye_girth", "Armscye girth"],
  ["upper_arm_girth", "Upper arm girth"],
  ["wrist_girth", "Wrist girth"],
  ["trunk_circumference", "Trunk circumference"],
  ["crotch_length", "Crotch length"],
  ["crotch_length_front", "Crotch length, front part"],
  ["back_waist_length", "Back waist length"],
  ["front_waist_length", "Front waist length"],
  ["side_neck_to_bust_point", "Side neck to bust point"],
  ["bust_point_distance", "Bust point distance"],
  ["shoulder_length", "Shoulder length"],
  ["side_length", "Side length"],
  ["waist_to_hip", "Waist to hip"],
  ["rise_height", "Rise height"],
  ["across_back", "Across back"],
  ["across_front", "Across front"],
  ["arm_length", "Arm length"],
  ["crotch_height", "Crotch height"],
  ["waist_height", "Waist height"],
];
