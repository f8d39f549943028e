import type { Result } from "@pollard/base";
import type { HerdId, StoreFailure } from "@pollard/records";
import { jsonBody } from "../json-body.ts";
import { answer, refuse } from "../reply.ts";
import { type Call, herdNamed, type Route } from "../routes.ts";
import { type Role, ROLES } from "./access.ts";
import { CODE_DIGITS } from "./secrets.ts";

/** Longest name of a device, and the one it has where none was said. */
const NAME_LIMIT = 60;

const roleIn = (json: unknown): Role | undefined => {
  const { role } = (json ?? {}) as { readonly role?: unknown };
  return ROLES.find((each) => each === role);
};

/** How many tokens are looked at of those that a device has already: one a herd. */
const MOST_HAD = 50;

/** The tokens that a device says it has; what is none is left out. */
const tokensIn = (had: unknown): readonly string[] =>
  Array.isArray(had)
    ? had.slice(0, MOST_HAD).filter((each) => typeof each === "string" && /^[\w-]{20,200}$/.test(each))
    : [];

/** The herd that an address names, if a device can be let in to it: text that every database keeps as it is. */
function herdFor(call: Call): HerdId | undefined {
  const herd = herdNamed(call);
  return herd === undefined || /[\p{Cc}\p{Cs}]/u.test(herd) ? undefined : herd;
}

/** What the database said, answered; a hub without a database of who may lets nobody in. */
function told<T>(result: Result<T, StoreFailure> | undefined, answering: (value: T) => Response): Response {
  if (result === undefined) return refuse("unavailable");
  return result.ok ? answering(result.value) : refuse(result.error.code);
}

/** Letting devices in, and out again. */
export const ACCESS_ROUTES: readonly Route[] = [
  {
    path: "/api/join",
    audience: "anyone",
    methods: {
      POST: async ({ parts, request, from }) => {
        const body = await jsonBody(request);
        if (!body.ok) return refuse(body.error);
        const { code, name, had } = (body.value ?? {}) as Readonly<Record<string, unknown>>;
        const digits = typeof code === "string" ? code.replaceAll(/[\s-]/g, "") : "";
        const called = typeof name === "string" ? name.trim().slice(0, NAME_LIMIT) : "";
        if (!/^\d+$/.test(digits) || digits.length !== CODE_DIGITS || called === "" || /[\p{Cc}\p{Cs}]/u.test(called))
          return refuse("not-a-code");
        return told(await parts.access?.join(digits, called, { from, had: tokensIn(had) }), (joined) =>
          typeof joined === "string" ? refuse(joined) : answer(joined),
        );
      },
    },
  },
  {
    path: "/api/herds/:herd/invites",
    audience: "keeper",
    methods: {
      POST: async (call) => {
        const herd = herdFor(call);
        if (herd === undefined) return refuse("not-a-herd");
        const body = await jsonBody(call.request);
        if (!body.ok) return refuse(body.error);
        const role = roleIn(body.value);
        if (role === undefined) return refuse("not-a-role");
        return told(await call.parts.access?.invite(herd, role), answer);
      },
    },
  },
  {
    path: "/api/herds/:herd/devices",
    audience: "keeper",
    methods: {
      GET: async (call) => {
        const herd = herdFor(call);
        if (herd === undefined) return refuse("not-a-herd");
        return told(await call.parts.access?.devices(herd), (devices) =>
          answer({ devices, reach: call.parts.reach ?? null }),
        );
      },
    },
  },
  {
    path: "/api/herds/:herd/devices/:device",
    audience: "keeper",
    methods: {
      PUT: async (call) => {
        const herd = herdFor(call);
        if (herd === undefined) return refuse("not-a-herd");
        return told(await call.parts.access?.letInAgain(herd, call.named["device"] ?? ""), (done) =>
          done ? answer({}) : refuse("no-such-device"),
        );
      },
      DELETE: async (call) => {
        const herd = herdFor(call);
        if (herd === undefined) return refuse("not-a-herd");
        return told(await call.parts.access?.revoke(herd, call.named["device"] ?? ""), (done) =>
          done ? answer({}) : refuse("no-such-device"),
        );
      },
    },
  },
];
