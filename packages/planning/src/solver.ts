import { Bug } from "@pollard/base";

/** What a solver says of a program in the LP text format. */
export interface ProgramAnswer {
  readonly kind: "optimal" | "infeasible" | "stopped";
  readonly value: number;
  /** Value of each variable by its name; empty unless there is a solution. */
  readonly columns: ReadonlyMap<string, number>;
}

/** Solves linear programs, with whole-number variables where asked, to proven optimality. */
export interface ProgramSolver {
  solve(program: string, limits?: ProgramLimits): ProgramAnswer;
}

/** When to stop looking for a better answer. */
export interface ProgramLimits {
  readonly seconds?: number;
  /** How far from the best, as a share of it, an answer may be and still be called optimal. */
  readonly gap?: number;
}

/**
 * The solver, ready to use. Its 1.2 MB are loaded only when a plan is asked for.
 *
 * `place` says where the solver's compiled file lies; needed in a browser, not in Node.
 *
 * Source: decision 0008.
 */
export async function loadSolver(place?: (file: string) => string): Promise<ProgramSolver> {
  const { default: load } = await import("highs");
  const highs = await load(place === undefined ? {} : { locateFile: place });
  return {
    solve(program, { seconds, gap } = {}) {
      const solution = highs.solve(program, {
        output_flag: false,
        mip_rel_gap: gap ?? 0,
        ...(seconds === undefined ? {} : { time_limit: seconds }),
      });
      const columns = new Map(
        Object.entries(solution.Columns).map(([name, column]) => [name, "Primal" in column ? column.Primal : 0]),
      );
      switch (solution.Status) {
        case "Optimal":
          return { kind: "optimal", value: solution.ObjectiveValue, columns };
        case "Infeasible":
        case "Primal infeasible or unbounded":
          return { kind: "infeasible", value: Number.NaN, columns: new Map() };
        case "Time limit reached":
          return { kind: "stopped", value: solution.ObjectiveValue, columns };
        default:
          throw new Bug(`solver: ${solution.Status}`);
      }
    },
  };
}
