import type { Result } from "@pollard/base";
import { parseDay } from "@pollard/base";
import { type AskedFailure, type HerdId, type StoreFailure, takePush } from "@pollard/records";
import { jsonBody } from "../json-body.ts";
import { answer, refuse } from "../reply.ts";
import { type Call, decoded, herdNamed, type Route } from "../routes.ts";
import { goneHtml, PAPER_POLICY, paperHtml } from "./paper-page.ts";
import type { Papers } from "./papers.ts";
import { paperIn, visitIn } from "./shown.ts";
import { writtenAtVisit } from "./writing.ts";

/** How long a guest's link may last, days. Source: judgement; a kid is sold and fetched within weeks. */
const LONGEST_DAYS = 90;
/** Longest name of a kid, as in an entry. */
const NAME_LIMIT = 80;

/** The herd and the papers of a call; a hub without a database of them shows nobody anything. */
async function of(call: Call, answering: (papers: Papers, herd: HerdId) => Promise<Response>): Promise<Response> {
  const herd = herdNamed(call);
  if (herd === undefined || /[\p{Cc}\p{Cs}]/u.test(herd)) return refuse("not-a-herd");
  return call.parts.papers === undefined ? refuse("unavailable") : answering(call.parts.papers, herd);
}

const told = <T>(result: Result<T, AskedFailure | StoreFailure>, answering: (value: T) => Response): Response =>
  result.ok ? answering(result.value) : refuse(result.error.code);

const isName = (text: unknown): text is string =>
  typeof text === "string" && text !== "" && text.length <= NAME_LIMIT && !/[\p{Cc}\p{Cs}]/u.test(text);

/** The day of a visit that an address names. */
const dayNamed = ({ named }: Call): string | undefined => parseDay(decoded(named["day"]) ?? "");

/** What is shown to somebody outside: a kid's paper by a link, a visit's list to the vet. */
export const PAPER_ROUTES: readonly Route[] = [
  {
    path: "/api/herds/:herd/papers",
    audience: "keeper",
    methods: {
      GET: (call) => of(call, async (papers, herd) => told(await papers.links(herd), (links) => answer({ links }))),
      POST: (call) =>
        of(call, async (papers, herd) => {
          const body = await jsonBody(call.request);
          if (!body.ok) return refuse(body.error);
          const { kid, days, paper: sheet } = (body.value ?? {}) as Readonly<Record<string, unknown>>;
          const paper = paperIn(sheet);
          const isDays = typeof days === "number" && Number.isInteger(days) && days >= 1 && days <= LONGEST_DAYS;
          if (paper === undefined || !isName(kid) || !isDays) return refuse("not-a-paper");
          return told(await papers.publish(herd, { kid, paper, days }), ({ id, token, expires }) =>
            answer({ id, path: `/paper/${token}`, expires, reach: call.parts.reach ?? null }),
          );
        }),
    },
  },
  {
    path: "/api/herds/:herd/papers/:paper",
    audience: "keeper",
    methods: {
      DELETE: (call) =>
        of(call, async (papers, herd) =>
          told(await papers.takeBack(herd, decoded(call.named["paper"]) ?? ""), (done) =>
            done ? answer({}) : refuse("no-such-paper"),
          ),
        ),
    },
  },
  {
    path: "/paper/:token",
    audience: "anyone", // who has the link; it opens this one page and nothing else
    methods: {
      GET: async ({ parts, named }) => {
        const found = await parts.papers?.paperOf(named["token"] ?? "");
        if (found?.ok === false) return refuse(found.error.code);
        const paper = found?.value;
        const html = paper === undefined ? goneHtml() : paperHtml(paper);
        return new Response(html, {
          status: paper === undefined ? 404 : 200,
          headers: {
            "content-type": "text/html; charset=utf-8",
            "content-length": String(Buffer.byteLength(html)),
            "content-security-policy": PAPER_POLICY,
            "x-robots-tag": "noindex",
            "cache-control": "no-store",
          },
        });
      },
    },
  },
  {
    path: "/api/herds/:herd/visits",
    audience: "visit",
    methods: {
      GET: (call) =>
        of(call, async (papers, herd) => {
          const copy = await call.parts.ledgers.of(herd).copyFor(0);
          if (!copy.ok) return refuse(copy.error.code);
          return told(await papers.visits(herd), (visits) => answer({ visits, copy: copy.value }));
        }),
    },
  },
  {
    path: "/api/herds/:herd/visits/:day",
    audience: "keeper",
    methods: {
      PUT: (call) =>
        of(call, async (papers, herd) => {
          const body = await jsonBody(call.request);
          if (!body.ok) return refuse(body.error);
          const [day, visit] = [dayNamed(call), visitIn(body.value)];
          if (day === undefined || visit === undefined) return refuse("not-a-visit");
          return told(await papers.publishVisit(herd, day, visit), () => answer({ day, kids: visit.kids.length }));
        }),
      DELETE: (call) =>
        of(call, async (papers, herd) =>
          told(await papers.takeBackVisit(herd, dayNamed(call) ?? ""), (done) =>
            done ? answer({}) : refuse("no-such-visit"),
          ),
        ),
    },
  },
  {
    path: "/api/herds/:herd/visits/:day/entries",
    audience: "visit",
    methods: {
      POST: (call) =>
        of(call, async (papers, herd) => {
          const body = await jsonBody(call.request);
          if (!body.ok) return refuse(body.error);
          const [day, visits] = [dayNamed(call), await papers.visits(herd)];
          if (!visits.ok) return refuse(visits.error.code);
          const visit = visits.value.find((each) => each.day === day);
          if (day === undefined || visit === undefined) return refuse("no-such-visit");
          const kids = new Set(visit.kids.map(({ kid }) => kid));
          return told(await takePush(call.parts.ledgers.of(herd), body.value, writtenAtVisit(day, kids)), answer);
        }),
    },
  },
];
