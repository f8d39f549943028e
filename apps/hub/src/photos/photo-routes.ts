import type { HerdId } from "@pollard/records";
import { isPhotoName, PHOTO_LIMIT, PHOTO_NAMES_LIMIT, pictureType } from "@pollard/records";
import { bytesUpTo, jsonBody } from "../json-body.ts";
import { answer, refuse } from "../reply.ts";
import { type Call, herdNamed, type Route } from "../routes.ts";
import type { HubPhotos } from "./photos.ts";

/** The names in a question for what is lacking; `undefined` where it is none, or too long. */
function namesIn(json: unknown): readonly string[] | undefined {
  const { photos } = (json ?? {}) as { readonly photos?: unknown };
  if (!Array.isArray(photos) || photos.length > PHOTO_NAMES_LIMIT) return undefined;
  return photos.every((name) => typeof name === "string" && isPhotoName(name))
    ? (photos as readonly string[])
    : undefined;
}

async function ofPhotos(
  call: Call,
  answering: (photos: HubPhotos, herd: HerdId) => Promise<Response>,
): Promise<Response> {
  const herd = herdNamed(call);
  if (herd === undefined) return refuse("not-a-herd");
  return call.parts.photos === undefined ? refuse("unavailable") : answering(call.parts.photos, herd);
}

/** One picture of one herd. A name is never decoded: what is no digest and no id, is none. */
const ofPhoto = (
  call: Call,
  answering: (photos: HubPhotos, herd: HerdId, name: string) => Promise<Response>,
): Promise<Response> =>
  ofPhotos(call, async (photos, herd) => {
    const name = call.named["photo"] ?? "";
    return isPhotoName(name) ? answering(photos, herd, name) : refuse("not-a-photo-name");
  });

/** Pictures on their way: for the herd's own people, as its entries are. */
export const PHOTO_ROUTES: readonly Route[] = [
  {
    path: "/api/herds/:herd/photos",
    audience: "member",
    methods: {
      POST: (call) =>
        ofPhotos(call, async (photos, herd) => {
          const body = await jsonBody(call.request);
          if (!body.ok) return refuse(body.error);
          const names = namesIn(body.value);
          if (names === undefined) return refuse("not-a-photo-name");
          const lacking = await photos.lacking(herd, names);
          return lacking.ok ? answer({ lacking: lacking.value }) : refuse(lacking.error.code);
        }),
    },
  },
  {
    path: "/api/herds/:herd/photos/:photo",
    audience: "member",
    methods: {
      GET: (call) =>
        ofPhoto(call, async (photos, herd, name) => {
          const found = await photos.find(herd, name);
          if (!found.ok) return refuse(found.error.code);
          if (found.value === undefined) return refuse("no-such-photo");
          return new Response(found.value, {
            headers: {
              "content-type": pictureType(found.value) ?? "application/octet-stream",
              "content-length": String(found.value.length),
              "cache-control": "no-store",
            },
          });
        }),
      PUT: (call) =>
        ofPhoto(call, async (photos, herd, name) => {
          const bytes = await bytesUpTo(PHOTO_LIMIT, call.request);
          if (!bytes.ok) return refuse(bytes.error);
          const kept = await photos.keep(herd, name, bytes.value);
          if (kept.ok) call.parts.news?.tell(herd);
          return kept.ok ? answer({ verdict: kept.value }) : refuse(kept.error.code);
        }),
    },
  },
];
