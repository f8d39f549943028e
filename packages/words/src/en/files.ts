import type { FileLook, FileProblem, HerdFile, ParseProblem } from "@pollard/records";

const LOOKS: Readonly<Record<FileLook, string>> = {
  empty: "it is empty",
  csv: "it looks like a table of comma-separated values",
  json: "it is JSON, but not a herd's",
  zip: "it is a zip archive; unpack it first",
  binary: "it is not text",
  text: "it is some other text",
};

/** Why a file is no herd file at all, in one sentence; `undefined` where it is one. */
export function notAHerd(path: string, { problems }: HerdFile): string | undefined {
  const found = problems.find((problem) => problem.code === "not-a-herd-file");
  return found === undefined ? undefined : `"${path}" is no herd file: ${LOOKS[found.looks]}.`;
}

/** What is wrong with a herd file, one sentence a problem. */
export function sayFileProblem(problem: FileProblem): string {
  switch (problem.code) {
    case "not-a-herd-file":
      return `This is no herd file: ${LOOKS[problem.looks]}.`;
    case "no-header":
      return "The first line does not say that this is a herd file.";
    case "newer-format":
      return `The file was written by a later version of Pollard (format ${problem.version}).`;
    case "line-unreadable":
      return `Line ${problem.line} could not be read: ${sayReason(problem.reason)}.`;
    case "cut-short":
      return `The file breaks off in line ${problem.line}; what came after it is missing.`;
    case "damaged":
      return `The file was changed or damaged after it was written: ${problem.found.entries} entries of ${problem.sealed.entries} up to line ${problem.line}.`;
    case "other-herd":
      return `Line ${problem.line} belongs to another herd.`;
    case "one-id-twice":
      return `Lines ${problem.first} and ${problem.line} are different entries under one mark.`;
  }
}

function sayReason(reason: ParseProblem | { readonly code: "not-json" }): string {
  switch (reason.code) {
    case "not-json":
      return "it is not JSON";
    case "missing":
      return `${reason.path} is missing`;
    case "wrong-type":
      return `${reason.path === "" ? "the line" : reason.path} is of the wrong sort`;
    case "not-one-of":
      return `${reason.path} is ${JSON.stringify(reason.got)}, not one of ${reason.allowed.join(", ")}`;
    case "not-a-day":
      return `${reason.path} is ${JSON.stringify(reason.got)}, which is no day`;
    case "not-a-stamp":
      return `${reason.path} is no time of writing`;
    case "empty":
      return `${reason.path} is empty`;
    case "too-long":
      return `${reason.path === "" ? "the line" : reason.path} is longer than ${reason.limit}`;
    case "out-of-range":
      return `${reason.path} is ${JSON.stringify(reason.got)}, which cannot be`;
    case "not-allowed":
      return `${reason.path} does not belong there`;
    case "too-deep":
      return "it is nested too deeply";
  }
}
