/** The same shape with other words: every text may be any text, every function keeps what it takes. */
export type AnyWording<T> = T extends string
  ? string
  : T extends (...takes: infer Takes) => infer Gives
    ? (...takes: Takes) => Gives extends string ? string : Gives
    : T extends object
      ? { readonly [K in keyof T]: AnyWording<T[K]> }
      : T;
