/** An answer, or why there is none. For what a person, a file or the world can get wrong; our own mistakes are a `Bug`. */
export type Result<T, E> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: E };

/** The answer is there. */
export const ok = <T>(value: T): { readonly ok: true; readonly value: T } => ({ ok: true, value });

/** There is no answer, and this is why. */
export const err = <E>(error: E): { readonly ok: false; readonly error: E } => ({ ok: false, error });
