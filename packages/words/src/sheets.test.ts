import type { VisitorsModel } from "@pollard/advice";
import { day } from "@pollard/base";
import { describe, expect, test } from "vitest";
import { sheets } from "./en/sheets.ts";

const context = { herdName: "Sallowbank", today: day("2026-03-18"), paper: "A4", units: "kg" } as const;

describe("sheets in words", () => {
  test("[WO-8] an empty vet's list still has room to write, and its cautions", () => {
    const model = {
      day: day("2026-03-20"),
      planned: true,
      vet: undefined,
      list: [],
      lookFirst: [],
      cautions: ["iron-only"],
    } as const;
    const { blocks, turned } = sheets.vetList(model, context);
    expect(turned).toBe("sideways");
    expect(blocks).toContainEqual({ kind: "text", text: "Nobody is on the list yet.", weight: "plain" });
    const table = blocks.find((b) => b.kind === "table");
    expect(table?.kind === "table" && table.rows).toHaveLength(2);
  });

  test("[WO-8] the gate names those who must stay outside first", () => {
    const model: VisitorsModel = {
      today: context.today,
      herdName: "Sallowbank",
      state: "open",
      from: day("2026-03-01"),
      to: day("2026-05-01"),
      cautions: ["pregnant-stay-away", "wash-hands"],
      afterLoss: [],
      rule: "AD-41",
    };
    const { blocks } = sheets.gate(model, context);
    expect(blocks[1]).toMatchObject({ kind: "warning" });
    expect(blocks[2]).toMatchObject({ items: ["Wash your hands with soap and water when you leave."] });
  });
});
