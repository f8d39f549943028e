import schema from "../../schema/herd-entry.schema.json";

/** The published JSON Schema of entries, draft 2020-12, as it goes along with a herd that is handed out. */
export const HERD_ENTRY_SCHEMA: unknown = schema;
