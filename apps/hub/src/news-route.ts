import { refuse } from "./reply.ts";
import { herdNamed, type Route } from "./routes.ts";

/** Where a device waits to hear that there is something new. */
export const newsRoute: Route = {
  path: "/api/herds/:herd/news",
  audience: "member",
  methods: {
    GET: async (call) => {
      const herd = herdNamed(call);
      if (herd === undefined) return refuse("not-a-herd");
      // A look without the body is no listener.
      if (call.request.method === "HEAD" || call.parts.news === undefined)
        return call.parts.news === undefined ? refuse("unavailable") : new Response(null, { headers: HEADERS });
      const line = call.parts.news.listen(herd);
      return line === undefined ? refuse("unavailable") : new Response(line, { headers: HEADERS });
    },
  },
};

/** `x-accel-buffering`: a proxy is not to wait until there is more of it. */
const HEADERS = {
  "content-type": "text/event-stream; charset=utf-8",
  "cache-control": "no-store",
  "x-accel-buffering": "no",
};
