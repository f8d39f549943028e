/** A number with a decimal comma, as most of the Spanish-speaking world writes it; without `places` as many as it has. */
export const decimal = (n: number, places?: number): string =>
  (places === undefined ? String(n) : n.toFixed(places)).replace(".", ",");

/** One thing or so many of them: "1 día", "3 días". */
export const many = (n: number, one: string, more: string): string => `${n} ${n === 1 ? one : more}`;

/** Names in a row, with "y" before the last; "e" where the last begins with the sound of an i. */
export function list(names: readonly string[]): string {
  const last = names.at(-1);
  if (last === undefined || names.length < 2) return names.join("");
  return `${names.slice(0, -1).join(", ")} ${/^h?i(?![aeo])/i.test(last) ? "e" : "y"} ${last}`;
}

export const opening = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
