import { loadSolver, type ProgramSolver } from "@pollard/planning";
import solverFile from "highs/runtime?url";

let loading: Promise<ProgramSolver> | undefined;

/** The solver, loaded when it is first asked for; its file is on the phone with the app. */
export function solver(): Promise<ProgramSolver> {
  loading ??= loadSolver(() => solverFile);
  return loading;
}
