declare const brand: unique symbol;

/** A `T` that has passed the check called `Name`. Only the maker beside the type may cast to it. */
export type Brand<T, Name extends string> = T & { readonly [brand]: Name };
