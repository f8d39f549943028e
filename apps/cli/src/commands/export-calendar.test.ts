import { day } from "@pollard/base";
import { describe, expect, test } from "vitest";
import { typed } from "../testing.ts";

const today = day("2026-03-18");

describe("the calendar", () => {
  test("[CL-26] the invented herd: due does, the vet's day, heads, care", async () => {
    const { exit, out } = await typed("export --demo demo --as ics", { today });
    expect(exit).toBe(0);
    expect(out).toMatch(/^BEGIN:VCALENDAR\r\n/);
    for (const title of ["Yarrow is due to kid", "The vet comes", "Look at Pip's head"])
      expect(out.replaceAll("\r\n ", "")).toContain(`SUMMARY:${title}`);
  });

  test("[CL-26] written to a file, nothing is printed", async () => {
    const { out, written } = await typed("export --demo demo --as ics -o season.ics", { today });
    expect(out).toBe("");
    expect(written.get("season.ics")).toMatch(/END:VCALENDAR\r\n$/);
  });

  test("[CL-26] a file that cannot be written is the world's failure", async () => {
    const small = { today, files: { "season.ics": { failure: "not-allowed" as const } } };
    const { exit, err } = await typed("export --demo demo --as ics -o season.ics", small);
    expect(exit).toBe(3);
    expect(err).toBe("season.ics may not be written by you.\n");
  });
});
