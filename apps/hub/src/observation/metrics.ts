import type { RequestLine } from "./request-line.ts";

/** The content type of the text below. */
export const METRICS_TYPE = "application/openmetrics-text; version=1.0.0; charset=utf-8";

/** Upper ends of the classes in which durations are counted, seconds. */
const SECONDS = [0.005, 0.02, 0.1, 0.5, 2, 10] as const;

/** A figure as it stands at the moment of asking. */
export interface Gauge {
  readonly name: string;
  readonly help: string;
  readonly value: number;
}

/** What a hub counts from its start on. */
export interface Metrics {
  readonly request: (line: RequestLine) => void;
  /** One more, or some more, of what is counted under a name and a label. */
  readonly count: (name: CountName, label: string, by?: number) => void;
  /** Everything counted, and the gauges, in the OpenMetrics text format. */
  readonly text: (gauges: readonly Gauge[]) => string;
}

/** What is counted beside requests: its help and the name of its label. */
const COUNTS = {
  pollard_entries: { help: "Entries handed over by devices, by what became of them.", label: "verdict" },
  pollard_backups: { help: "Backups by how they ended.", label: "end" },
} as const;
export type CountName = keyof typeof COUNTS;

interface Durations {
  count: number;
  sum: number;
  readonly upTo: number[];
}

/**
 * Counts what a hub does, in a form that any collector of the open format can fetch.
 *
 * Labels are routes, methods, statuses and verdicts; no herd, device or person is ever one.
 *
 * Source: OpenMetrics 1.0.0 (the text format of Prometheus, IETF draft-richih-opsawg-openmetrics).
 */
export function newMetrics(): Metrics {
  const requests = new Map<string, number>();
  const durations = new Map<string, Durations>();
  const counts = new Map<CountName, Map<string, number>>();
  return {
    request: ({ method, route, status, ms }) => {
      add(requests, labels({ method, route, status: String(status) }), 1);
      const seconds = ms / 1000;
      const kept = durations.get(route) ?? { count: 0, sum: 0, upTo: SECONDS.map(() => 0) };
      durations.set(route, kept);
      kept.count += 1;
      kept.sum += seconds;
      SECONDS.forEach((end, at) => {
        if (seconds <= end) kept.upTo[at] = (kept.upTo[at] ?? 0) + 1;
      });
    },
    count: (name, label, by = 1) => {
      const kept = counts.get(name) ?? new Map<string, number>();
      counts.set(name, kept);
      add(kept, labels({ [COUNTS[name].label]: label }), by);
    },
    text: (gauges) =>
      [
        ...family("pollard_requests", "counter", "Requests answered.", totals("pollard_requests", requests)),
        ...family("pollard_request_seconds", "histogram", "Time until an answer was ready.", histogram(durations)),
        ...[...counts].flatMap(([name, kept]) => family(name, "counter", COUNTS[name].help, totals(name, kept))),
        ...gauges.flatMap(({ name, help, value }) => family(name, "gauge", help, [`${name} ${value}`])),
        "# EOF\n",
      ].join("\n"),
  };
}

const add = (kept: Map<string, number>, label: string, by: number): void =>
  void kept.set(label, (kept.get(label) ?? 0) + by);

const family = (name: string, type: string, help: string, samples: readonly string[]): readonly string[] => [
  `# TYPE ${name} ${type}`,
  `# HELP ${name} ${help}`,
  ...samples,
];

const totals = (name: string, kept: ReadonlyMap<string, number>): readonly string[] =>
  [...kept].map(([label, count]) => `${name}_total${label} ${count}`);

const histogram = (durations: ReadonlyMap<string, Durations>): readonly string[] =>
  [...durations].flatMap(([route, { count, sum, upTo }]) => [
    ...SECONDS.map(
      (end, at) =>
        `pollard_request_seconds_bucket${labels({ route, le: end.toFixed(3).replace(/0+$/, "").replace(/\.$/, ".0") })} ${upTo[at]}`,
    ),
    `pollard_request_seconds_bucket${labels({ route, le: "+Inf" })} ${count}`,
    `pollard_request_seconds_count${labels({ route })} ${count}`,
    `pollard_request_seconds_sum${labels({ route })} ${sum}`,
  ]);

const labels = (named: Readonly<Record<string, string>>): string =>
  `{${Object.entries(named)
    .map(([name, value]) => `${name}="${value.replace(/[\\"]/g, "\\$&").replaceAll("\n", "\\n")}"`)
    .join(",")}}`;
