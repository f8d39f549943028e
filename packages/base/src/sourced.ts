/**
 * A figure the program leans on, and where it was read. A bare number cannot be passed in its place.
 *
 * `read-in-source`: seen in the named source. `from-memory`: believed, not opened; for trying things out, refused by the
 * tests of the repository (HO-14). `common-practice`: what practitioners say, no source known. `judgement`: our own
 * choice, argued beside it. `set-by-keepers-vet`: overrules the literature.
 */
export interface Sourced<T> {
  readonly value: T;
  /** A key of docs/SOURCES.md. */
  readonly source: string;
  readonly checked: "read-in-source" | "from-memory" | "common-practice" | "judgement" | "set-by-keepers-vet";
}
