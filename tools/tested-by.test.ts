import { describe, expect, test } from "vitest";
import { codeFiles, isTest, textOf } from "./repository.ts";
import { TAG, testNamesOf } from "./syntax.ts";

/** A line of docs/TESTED-BY.md: what must hold, what shows it, a remark. */
interface Matter {
  readonly holds: string;
  readonly shown: readonly string[];
  readonly remark: string;
}

const matters: readonly Matter[] = textOf("docs/TESTED-BY.md")
  .split("\n")
  .filter((line) => line.startsWith("|") && !/^\| (?:---|what must hold)/.test(line))
  .map((line) => {
    const [, holds = "", shown = "", remark = ""] = line.split("|").map((cell) => cell.trim());
    return { holds, shown: shown.split("; ").filter((part) => part !== ""), remark };
  });

/** The files of tests whose path ends so, with the rules that their tests bear. */
const rulesOf = (ending: string): readonly (string | undefined)[] =>
  codeFiles
    .filter((path) => isTest(path) && path.endsWith(`/${ending}`))
    .flatMap((path) => testNamesOf(path).map((name) => TAG.exec(name)?.[1]));

const byHand = new Set([...textOf("docs/BY-HAND.md").matchAll(/^## (.+)$/gm)].map((found) => found[1]));

/** What is wrong with one thing that is said to show a matter; nothing if it is there. */
function wrongWith(part: string, remark: string): string | undefined {
  if (part === "not done") return remark === "" ? "not done, and no reason" : undefined;
  const section = /^by hand: (.+)$/.exec(part)?.[1];
  if (section !== undefined) return byHand.has(section) ? undefined : `no section "${section}" in BY-HAND.md`;
  const [, rule, file] = /^([A-Z]{2}-\d+) (\S+\.test\.tsx?)$/.exec(part) ?? [];
  if (rule === undefined || file === undefined) return `not understood: ${part}`;
  return rulesOf(file).includes(rule) ? undefined : `no test of ${rule} in ${file}`;
}

describe("what shows what", () => {
  test("[HO-30] every matter stands once, and whatever is said to show it is there", () => {
    expect(matters.length).toBeGreaterThan(20); // the reading of the page itself works
    const twice = matters.filter(({ holds }, at) => matters.findIndex((other) => other.holds === holds) !== at);
    const wrong = matters.flatMap(({ holds, shown, remark }) =>
      shown.length === 0
        ? [`${holds}: nothing shows it`]
        : shown.map((part) => wrongWith(part, remark)).filter((said) => said !== undefined),
    );
    expect({ twice, wrong }).toEqual({ twice: [], wrong: [] });
  });
});
