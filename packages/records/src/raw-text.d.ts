/** A file as it stands, loaded by the test runner. */
declare module "*.jsonl?raw" {
  const text: string;
  export { text as default };
}
