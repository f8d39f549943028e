/** The program itself is wrong. Never thrown for what a person typed, a file held or a network did. */
export class Bug extends Error {
  override name = "Bug";
}

/** Closes a switch over a union: a new member that is not handled fails to compile here. */
export function unreachable(x: never, where: string): never {
  throw new Bug(`${where}: not handled: ${JSON.stringify(x)}`);
}

/**
 * The value, when the program itself guarantees that there is one.
 *
 * Errors: Bug if there is none: the guarantee named by `what` does not hold.
 */
export function present<T>(value: T | undefined, what: string): T {
  if (value === undefined) throw new Bug(`missing: ${what}`);
  return value;
}
