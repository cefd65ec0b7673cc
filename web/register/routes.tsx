/** Addresses of the first page and of the register. */
import { HomePage } from "../home/home.js";
import type { Route } from "../routes.js";
import { ClassesPage } from "./classes.js";
import { ClothPage, ElasticPage } from "./cloth.js";
import { PairPage } from "./pairing.js";
import { SamplesPage } from "./samples.js";
import { WearerPage } from "./wearer.js";
import { WorkroomPage } from "./workroom.js";

/** Goes into the list of all routes. */
export const registerRoutes: readonly Route[] = [
  { pattern: "/", page: () => <HomePage /> },
  { pattern: "/wearers/:id", page: ({ id = "" }) => <WearerPage key={id} id={id} /> },
  { pattern: "/cloths/:id", page: ({ id = "" }) => <ClothPage key={id} id={id} /> },
  { pattern: "/elastics/:id", page: ({ id = "" }) => <ElasticPage key={id} id={id} /> },
  { pattern: "/samples", page: () => <SamplesPage /> },
  { pattern: "/workroom", page: () => <WorkroomPage /> },
  { pattern: "/classes", page: () => <ClassesPage /> },
  { pattern: "/pair", page: () => <PairPage /> },
];
