import { describe, expect, test } from "vitest";
import { guestAddress, shownVisit, whyNotShown } from "./model.ts";

describe("what is shown outside the herd", () => {
  test("[UI-176] a guest's address is the hub's own where phones reach it, and else this computer's", () => {
    const made = { path: "/paper/secret", reach: "https://goats.example:8443" };
    expect(guestAddress(made, "http://localhost:4180/")).toBe("https://goats.example:8443/paper/secret");
    expect(guestAddress({ ...made, reach: null }, "http://localhost:4180/#/sheet")).toBe(
      "http://localhost:4180/paper/secret",
    );
  });

  test("[UI-176] why the hub did not show it: this phone may not, or nobody answers", () => {
    expect(whyNotShown({ code: "peer-refused", status: 403, reason: "not-for-you" })).toBe("notYours");
    expect(whyNotShown({ code: "peer-refused", status: 503, reason: "unavailable" })).toBe("away");
    expect(whyNotShown({ code: "unreachable", cause: "no signal" })).toBe("away");
  });

  test("[UI-175] a vet's list holds the kids on it and those to be looked at first, in plain sentences, nothing else", () => {
    const line = (id: string) => ({ kid: { id }, belief: { share: 0.4 }, notes: ["private"] }) as never;
    const model = { list: [line("moth")], lookFirst: [line("pip")], cautions: ["warm"], planned: true } as never;
    const visit = shownVisit(model, "Oak Hollow", {
      name: ({ kid }) => kid.id.toUpperCase(),
      lines: () => ["4 days old"],
      caution: (code) => `${code}!`,
    });
    expect(visit).toEqual({
      herd: "Oak Hollow",
      kids: [
        { kid: "moth", name: "MOTH", lines: ["4 days old"] },
        { kid: "pip", name: "PIP", lines: ["4 days old"] },
      ],
      cautions: ["warm!"],
    });
  });
});
