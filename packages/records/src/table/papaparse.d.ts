/*
 * As much of the library's types as is used here. Its published types bring all of Node's along, and nothing below the
 * apps may know of Node; by the name of its file it has none.
 */
declare module "papaparse/papaparse.js" {
  const Papa: {
    parse<Row>(
      text: string,
      how: {
        readonly delimiter: string;
        readonly newline: string;
        step(
          result: {
            readonly data: Row;
            readonly errors: readonly { readonly type: string; readonly code: string }[];
            readonly meta: { readonly cursor: number };
          },
          parser: { abort(): void },
        ): void;
      },
    ): void;
  };
  // oxlint-disable-next-line import/no-default-export -- it is what the library exports
  export default Papa;
}
