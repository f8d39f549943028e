import type { HubDatabase } from "../store/hub-database.ts";
import type { Gauge } from "./metrics.ts";

/** When something was, or will be; nothing where there is no such thing. */
export interface HubTimes {
  readonly lastBackup?: Date | undefined;
  readonly certificateEnds?: Date | undefined;
}

/** The figures of a hub as they stand now. Those of a database that is away are left out, and `database_up` is 0. */
export async function hubGauges(
  database: HubDatabase,
  { lastBackup, certificateEnds }: HubTimes,
): Promise<readonly Gauge[]> {
  const kept = await database.db
    .selectFrom("herd")
    .select(({ fn }) => [fn.countAll().as("herds"), fn.sum("entries").as("entries")])
    .executeTakeFirstOrThrow()
    .catch(() => undefined); // told by the first gauge
  const gauges: Gauge[] = [
    { name: "pollard_database_up", help: "1 while the database answers.", value: kept ? 1 : 0 },
    {
      name: "process_resident_memory_bytes",
      help: "Memory the hub takes, bytes.",
      value: process.memoryUsage.rss(),
    },
    {
      name: "process_start_time_seconds",
      help: "When the hub was started, seconds since 1970.",
      value: Math.round(performance.timeOrigin / 1000),
    },
  ];
  if (kept) {
    gauges.push({ name: "pollard_herds", help: "Herds kept here.", value: Number(kept.herds) });
    gauges.push({ name: "pollard_entries_kept", help: "Entries kept here.", value: Number(kept.entries ?? 0) });
  }
  if (lastBackup) {
    const help = "When the last backup was made, seconds since 1970.";
    gauges.push({ name: "pollard_last_backup_seconds", help, value: Math.floor(lastBackup.getTime() / 1000) });
  }
  if (certificateEnds) {
    const help = "When the hub's own certificate ends, seconds since 1970.";
    gauges.push({
      name: "pollard_certificate_ends_seconds",
      help,
      value: Math.floor(certificateEnds.getTime() / 1000),
    });
  }
  return gauges;
}
