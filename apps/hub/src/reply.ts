import type { ExchangeRefusal, NO_ROOM_FOR_PHOTOS, PhotoProblem } from "@pollard/records";
import type { BodyProblem } from "./json-body.ts";

/** Why the hub refused a request whole. Kebab-case, stable: the app turns it into the keeper's language. */
export type RefusalCode =
  | BodyProblem
  | ExchangeRefusal["code"]
  | PhotoProblem
  | "no-such-photo"
  | typeof NO_ROOM_FOR_PHOTOS
  | "not-local"
  | "other-origin"
  | "no-such-page"
  | "wrong-method"
  | "not-a-herd"
  | "not-yours"
  | "not-let-in"
  | "no-longer-let-in"
  | "not-for-you"
  | "not-a-code"
  | "no-such-code"
  | "too-many-guesses"
  | "not-a-role"
  | "no-such-device"
  | "not-a-paper"
  | "no-such-paper"
  | "not-a-visit"
  | "no-such-visit"
  | "broken";

const STATUS: Readonly<Record<RefusalCode, number>> = {
  "not-local": 421,
  "other-origin": 403,
  "no-such-page": 404,
  "wrong-method": 405,
  "wrong-content-type": 415,
  "too-large": 413,
  "cut-short": 400,
  "too-deep": 400,
  "not-json": 400,
  "not-a-herd": 400,
  "not-yours": 401,
  "not-let-in": 401,
  "no-longer-let-in": 401,
  "not-for-you": 403,
  "not-a-code": 400,
  "no-such-code": 403,
  "too-many-guesses": 429,
  "not-a-role": 400,
  "no-such-device": 404,
  "not-a-paper": 400,
  "no-such-paper": 404,
  "not-a-visit": 400,
  "no-such-visit": 404,
  "not-a-push": 400,
  "not-a-place": 400,
  "too-many": 413,
  "later-exchange": 409,
  "not-a-photo-name": 400,
  "not-a-picture": 415,
  "not-its-digest": 400,
  "other-photo": 409,
  "no-such-photo": 404,
  "no-room-for-photos": 507,
  full: 507,
  unavailable: 503,
  broken: 500,
};

/** A refusal as it goes over the wire: `{ code, detail }` and the status that fits. */
export function refuse(code: RefusalCode, detail: Readonly<Record<string, string | number>> = {}): Response {
  return answer({ code, detail }, STATUS[code]);
}

/** An answer of the interface: JSON that nothing in between may keep. */
export function answer(body: unknown, status = 200): Response {
  const text = JSON.stringify(body);
  return new Response(text, {
    status,
    headers: {
      "content-type": "application/json; charset=utf-8",
      "content-length": String(Buffer.byteLength(text)),
      "cache-control": "no-store",
    },
  });
}
