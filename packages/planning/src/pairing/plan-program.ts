import { present } from "@pollard/base";
import type { ProgramAnswer } from "../solver.ts";
import { type BuckOf, contributions, cropKinship } from "./plan-loss.ts";
import { forbids, type PlanQuestion, type PlanRule } from "./plan-question.ts";

/** What a program holds beside the question itself. */
export interface PlanProgramParts {
  /** Rules that must hold. */
  readonly held: readonly PlanRule[];
  /** Rules that may be broken. Where there are any, the program breaks as few of them as it can, whatever the loss. */
  readonly soft?: readonly PlanRule[];
  /** Plans from which the answer must differ, each in at least so many does. */
  readonly apart?: readonly { readonly plan: BuckOf; readonly does: number }[];
  /** Plans at which the crop's kinship, which is no straight line, is held from below by its tangent. */
  readonly tangents?: readonly BuckOf[];
  /** Whether every choice is asked for as a whole number outright. */
  readonly whole?: "all";
}

type Term = readonly [number, string];

/** An always-zero variable, for a row in which nothing is left. */
const NOTHING = "nothing";

const pairName = (doe: number, buck: number): string => `x_${doe}_${buck}`;
const brokenName = (rule: number): string => `v_${rule}`;

/**
 * The plan as a mixed-integer program, in the text format of LP files.
 *
 * A doe has at most one buck. Rows are added up per buck: one row for each of his limits, none per pair, since with a row
 * a pair the solver runs out of memory on large herds. Where nothing ties does together but the bucks' limits, the choices
 * come out whole by themselves once it is settled which bucks are used, so only the bucks are asked for as whole numbers.
 *
 * Source: assignment with fixed costs; outer approximation of the convex term [duran-grossmann1986]; rule PA-5.
 */
export function planProgram(question: PlanQuestion, parts: PlanProgramParts): string {
  const { does, bucks, pairs, openDoe, crop } = question;
  const { held, soft = [], apart = [], tangents = [] } = parts;
  const counting = soft.length > 0;
  const withCrop = crop !== undefined && !counting;
  const whole = parts.whole === "all" || counting || apart.length > 0 || withCrop;
  const open = (d: number, b: number): boolean => !held.some((rule) => forbids(question, rule, d, b));
  const ofDoe = does.map((_, d) => bucks.flatMap((_, b) => (open(d, b) ? [b] : [])));
  const ofBuck = bucks.map((_, b) => does.flatMap((_, d) => (ofDoe[d]?.includes(b) ? [d] : [])));
  const lossOf = (d: number, b: number): number => present(pairs[d]?.[b], "a pair").loss;

  const rows: string[] = [];
  const row = (terms: readonly Term[], sign: "<=" | ">=", bound: number): void => {
    rows.push(`r${rows.length}: ${sum(terms.length === 0 ? [[1, NOTHING]] : terms)} ${sign} ${bound}`);
  };
  const pairTerms = (of: number, by: readonly number[]): readonly Term[] => by.map((b) => [1, pairName(of, b)]);
  const buckTerms = (b: number): readonly Term[] => (ofBuck[b] ?? []).map((d) => [1, pairName(d, b)]);

  const mostOf = new Map(held.flatMap((r) => (r.kind === "most" ? [[r.buck, r.most] as const] : [])));
  const served = new Set(held.flatMap((r) => (r.kind === "serve" ? [r.doe] : [])));
  does.forEach((doe, d) => {
    const terms = pairTerms(d, ofDoe[d] ?? []);
    if (terms.length > 0) row(terms, "<=", 1);
    if (served.has(doe)) row(terms, ">=", 1);
  });
  bucks.forEach(({ id }, b) => {
    row([...buckTerms(b), [-Math.min(mostOf.get(id) ?? does.length, does.length), `y_${b}`]], "<=", 0);
  });
  for (const rule of held) {
    if (rule.kind === "least") row(buckTerms(bucks.findIndex(({ id }) => id === rule.buck)), ">=", rule.least);
    if (rule.kind === "must") {
      const d = does.indexOf(rule.doe);
      row(pairTerms(d, ofDoe[d] ?? []), ">=", 1); // every other buck is closed to her already
    }
  }
  for (const [k, rule] of soft.entries()) softRow(question, rule, brokenName(k), { row, ofDoe, pairTerms, buckTerms });
  for (const { plan, does: least } of apart) {
    const same = plan.flatMap((b, d): Term[] => (b !== undefined && open(d, b) ? [[1, pairName(d, b)]] : []));
    const openSame = plan.flatMap((b, d): Term[] =>
      b === undefined ? (ofDoe[d] ?? []).map((other): Term => [-1, pairName(d, other)]) : [],
    );
    const openCount = plan.filter((b) => b === undefined).length;
    row([...same, ...openSame], "<=", does.length - least - openCount);
  }
  if (withCrop) for (const at of tangents) rows.push(`r${rows.length}: ${tangentAt(question, at, ofDoe)}`);

  const objective: Term[] = counting
    ? soft.map((_, k) => [1, brokenName(k)])
    : [
        ...ofDoe.flatMap((list, d) => list.map((b): Term => [lossOf(d, b) - (openDoe ?? 0), pairName(d, b)])),
        ...bucks.map(({ cost }, b): Term => [cost, `y_${b}`]),
        ...(withCrop ? [[crop.weight, "kinship"] as const] : []),
      ];
  const names = ofDoe.flatMap((list, d) => list.map((b) => pairName(d, b)));
  const upTo = [...names, ...soft.map((_, k) => brokenName(k))].map((name) => ` ${name} <= 1`);
  const binaries = [...bucks.map((_, b) => `y_${b}`), ...(whole ? names : []), ...soft.map((_, k) => brokenName(k))];
  return [
    "Minimize",
    ` loss: ${sum(objective.length === 0 ? [[0, NOTHING]] : objective)}`,
    "Subject To",
    ...rows.map((r) => ` ${r}`),
    "Bounds",
    ` ${NOTHING} <= 0`,
    ...upTo,
    ...(withCrop ? [" kinship >= 0"] : []),
    "Binaries",
    ...binaries.map((name) => ` ${name}`),
    "End",
  ].join("\n");
}

interface RowMaker {
  readonly row: (terms: readonly Term[], sign: "<=" | ">=", bound: number) => void;
  readonly ofDoe: readonly (readonly number[])[];
  readonly pairTerms: (doe: number, bucks: readonly number[]) => readonly Term[];
  readonly buckTerms: (buck: number) => readonly Term[];
}

/** One rule that the variable `broken` may switch off. */
function softRow(question: PlanQuestion, rule: PlanRule, broken: string, make: RowMaker): void {
  const { does, bucks } = question;
  const n = does.length;
  switch (rule.kind) {
    case "serve": {
      const d = does.indexOf(rule.doe);
      make.row([...make.pairTerms(d, make.ofDoe[d] ?? []), [1, broken]], ">=", 1);
      return;
    }
    case "most":
      make.row([...make.buckTerms(bucks.findIndex(({ id }) => id === rule.buck)), [-n, broken]], "<=", rule.most);
      return;
    case "least":
      make.row(
        [...make.buckTerms(bucks.findIndex(({ id }) => id === rule.buck)), [rule.least, broken]],
        ">=",
        rule.least,
      );
      return;
    case "must": {
      const d = does.indexOf(rule.doe);
      const b = bucks.findIndex(({ id }) => id === rule.buck);
      make.row([...make.pairTerms(d, make.ofDoe[d]?.includes(b) ? [b] : []), [1, broken]], ">=", 1);
      return;
    }
    default: {
      const against = make.ofDoe.flatMap((list, d) =>
        make.pairTerms(
          d,
          list.filter((b) => forbids(question, rule, d, b)),
        ),
      );
      if (against.length > 0) make.row([...against, [-n, broken]], "<=", 0);
    }
  }
}

/** `kinship` is at least the tangent at a plan: the crop's kinship is convex, so it lies above all its tangents. */
function tangentAt(question: PlanQuestion, at: BuckOf, ofDoe: readonly (readonly number[])[]): string {
  const { does, crop } = question;
  const shares = contributions(question, at);
  const slope = shares.map((_, i) => shares.reduce((s, share, j) => s + share * (crop?.kinship[i]?.[j] ?? 0), 0));
  const terms = ofDoe.flatMap((list, d) =>
    list.map((b): Term => {
      const both = (slope[d] ?? 0) + (slope[does.length + b] ?? 0);
      return [-both / does.length, pairName(d, b)];
    }),
  );
  return `${sum([[1, "kinship"], ...terms])} >= ${-cropKinship(question, at)}`;
}

/** A sum as LP text, broken into lines the reader can hold. */
function sum(terms: readonly Term[]): string {
  return terms
    .map(([factor, name], k) => `${factor < 0 ? "-" : k === 0 ? "" : "+"} ${Math.abs(factor)} ${name}`)
    .map((text, k) => (k > 0 && k % 8 === 0 ? `\n  ${text}` : text))
    .join(" ");
}

/** The plan that an answer stands for; nothing where its numbers are not whole. */
export function planFrom(question: PlanQuestion, { columns }: ProgramAnswer): BuckOf | undefined {
  const plan: (number | undefined)[] = [];
  for (let d = 0; d < question.does.length; d++) {
    let chosen: number | undefined;
    for (let b = 0; b < question.bucks.length; b++) {
      const x = columns.get(pairName(d, b)) ?? 0;
      if (Math.abs(x - Math.round(x)) > WHOLE) return undefined;
      if (Math.round(x) === 1) chosen = b;
    }
    plan.push(chosen);
  }
  return plan;
}

/** How far from whole the solver's numbers may be and still mean whole ones; its own tolerance is 1e-6. */
const WHOLE = 1e-4;

/** Which of the soft rules an answer breaks, by their place in the list. */
export const brokenIn = (soft: readonly PlanRule[], { columns }: ProgramAnswer): readonly number[] =>
  soft.flatMap((_, k) => ((columns.get(brokenName(k)) ?? 0) > 0.5 ? [k] : []));
