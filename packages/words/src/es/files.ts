import type { FileLook, FileProblem, HerdFile, ParseProblem } from "@pollard/records";

const LOOKS: Readonly<Record<FileLook, string>> = {
  empty: "está vacío",
  csv: "parece una tabla de valores separados por comas",
  json: "es JSON, pero no de un rebaño",
  zip: "es un archivo zip; descomprímalo primero",
  binary: "no es texto",
  text: "es otro texto",
};

/** Por qué un archivo no es de un rebaño, en una frase; `undefined` si lo es. */
export function notAHerd(path: string, { problems }: HerdFile): string | undefined {
  const found = problems.find((problem) => problem.code === "not-a-herd-file");
  return found === undefined ? undefined : `"${path}" no es un archivo de rebaño: ${LOOKS[found.looks]}.`;
}

/** Qué le pasa a un archivo de rebaño, una frase por problema. */
export function sayFileProblem(problem: FileProblem): string {
  switch (problem.code) {
    case "not-a-herd-file":
      return `Este no es un archivo de rebaño: ${LOOKS[problem.looks]}.`;
    case "no-header":
      return "La primera línea no dice que sea un archivo de rebaño.";
    case "newer-format":
      return `Lo escribió una versión posterior de Pollard (formato ${problem.version}).`;
    case "line-unreadable":
      return `La línea ${problem.line} no se pudo leer: ${sayReason(problem.reason)}.`;
    case "cut-short":
      return `El archivo se corta en la línea ${problem.line}; falta lo que seguía.`;
    case "damaged":
      return `El archivo cambió o se dañó: ${problem.found.entries} de ${problem.sealed.entries} entradas hasta la línea ${problem.line}.`;
    case "other-herd":
      return `La línea ${problem.line} es de otro rebaño.`;
    case "one-id-twice":
      return `Las líneas ${problem.first} y ${problem.line} son entradas distintas con una misma marca.`;
  }
}

function sayReason(reason: ParseProblem | { readonly code: "not-json" }): string {
  switch (reason.code) {
    case "not-json":
      return "no es JSON";
    case "missing":
      return `falta ${reason.path}`;
    case "wrong-type":
      return `${reason.path === "" ? "la línea" : reason.path} es de otra clase`;
    case "not-one-of":
      return `${reason.path} es ${JSON.stringify(reason.got)}, y no uno de ${reason.allowed.join(", ")}`;
    case "not-a-day":
      return `${reason.path} es ${JSON.stringify(reason.got)}, que no es un día`;
    case "not-a-stamp":
      return `${reason.path} no es una hora de escritura`;
    case "empty":
      return `${reason.path} está vacío`;
    case "too-long":
      return `${reason.path === "" ? "la línea" : reason.path} pasa de ${reason.limit}`;
    case "out-of-range":
      return `${reason.path} es ${JSON.stringify(reason.got)}, lo que no puede ser`;
    case "not-allowed":
      return `${reason.path} no va ahí`;
    case "too-deep":
      return "está anidada a demasiada profundidad";
  }
}
