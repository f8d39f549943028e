import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { kidModel } from "./kid-model.ts";
import {
  choice,
  HORNED_SIGNS,
  id,
  kidding,
  outcome,
  POLLED_SIGNS,
  reading,
  ROOK_AND_ASH,
  service,
  situation,
} from "../testing.ts";

const BORN = "2026-03-10";
const herd = [...ROOK_AND_ASH, kidding("Ash", BORN, { Tern: "buck", Wren: "doe" }, ["Rook"])];
const advice = (kid: string, today: string, ...more: Parameters<typeof situation>[0]) =>
  situation([...herd, ...more], today).advice(id(kid));
const visit = (on: string) => anEntry("vet-day", {}, { on });

describe("what to do about a kid's head", () => {
  test("[AD-7] every head is read first, in the days of its own sex", () => {
    expect(advice("Tern", "2026-03-11")).toMatchObject({ kind: "read-head", from: "2026-03-12", by: "2026-03-15" });
    expect(advice("Wren", "2026-03-11")).toMatchObject({ kind: "read-head", from: "2026-03-13", by: "2026-03-17" });
  });

  test("[AD-7] a reading that found nothing to go by is to be finished", () => {
    const empty = reading("Tern", "2026-03-13", { feel: { both: "not-looked" }, crown: "unsure" });
    expect(advice("Tern", "2026-03-13", empty)?.kind).toBe("finish-reading");
  });

  test("[AD-6] horned by every sign, with the vet due: the vet's list for that visit", () => {
    const said = advice("Tern", "2026-03-13", reading("Tern", "2026-03-13", HORNED_SIGNS), visit("2026-03-15"));
    expect(said).toMatchObject({ kind: "vet-list", day: "2026-03-15", visit: "planned", end: "2026-03-24" });
  });

  test("[AD-6] polled by every sign at five days: leave it", () => {
    expect(advice("Tern", "2026-03-15", reading("Tern", "2026-03-15", POLLED_SIGNS))?.kind).toBe("leave");
  });

  test("[AD-6] what is done with is done: disbudded, grown, gone, what grew is known", () => {
    const disbudded = anEntry("disbudding", { kid: id("Tern"), done: "both-sides" }, { on: "2026-03-15" });
    expect(advice("Tern", "2026-03-16", disbudded)).toMatchObject({ kind: "done", what: "disbudded" });
    expect(advice("Tern", "2026-06-20", outcome("Tern", "2026-06-15", "horn"))).toMatchObject({
      what: "outcome-known",
    });
    const sold = anEntry("departure", { animal: id("Tern"), why: "sold" }, { on: "2026-03-20" });
    expect(advice("Tern", "2026-03-21", sold)).toMatchObject({ what: "left-herd" });
    expect(advice("Tern", "2026-09-01")).toMatchObject({ what: "grown" });
  });

  test("[AD-6] one side done is not done", () => {
    const left = anEntry("disbudding", { kid: id("Tern"), done: "left" }, { on: "2026-03-15" });
    expect(advice("Tern", "2026-03-16", reading("Tern", "2026-03-14", HORNED_SIGNS), left)?.kind).not.toBe("done");
  });

  test("[AD-8] past the window, unread or horned, the answer is the vet's", () => {
    expect(advice("Tern", "2026-03-26")).toEqual({ kind: "ring-vet", end: "2026-03-24", rule: "AD-8" });
    expect(advice("Tern", "2026-03-26", reading("Tern", "2026-03-14", HORNED_SIGNS))?.kind).toBe("ring-vet");
  });

  test("[AD-9] past the window a head the keeper chose to leave, likelier hornless than not, is let be", () => {
    const unclear = reading("Tern", "2026-03-20", { skin: { both: "slides" }, whorls: { both: "none" } });
    expect(advice("Tern", "2026-03-26", unclear, choice("Tern", "2026-03-21", "leave"))).toMatchObject({
      what: "left-alone",
    });
    const horned = reading("Tern", "2026-03-20", HORNED_SIGNS);
    expect(advice("Tern", "2026-03-26", horned, choice("Tern", "2026-03-21", "leave"))?.kind).toBe("ring-vet");
  });

  test("[AD-6] a kid that came early counts from its due date as well", () => {
    const served = service("Ash", ["Rook"], "2025-10-18"); // 143 days before the birth: a week early
    const agesOf = (...entries: Parameters<typeof situation>[0]) =>
      kidModel(situation([...herd, ...entries], "2026-03-15"), id("Tern"))?.ages;
    const ages = agesOf(served);
    expect(ages?.early).toBeGreaterThanOrEqual(6);
    expect(ages?.daysFromDue).toBe((ages?.ageDays ?? 0) - (ages?.early ?? 0));
    expect(agesOf()?.daysFromDue).toBeUndefined();
    expect(advice("Tern", "2026-03-11", served)?.kind).toBe("read-head");
  });

  test("[AD-6] an animal without a birth date has no days to count", () => {
    const s = situation([anEntry("animal", { animal: id("Gale"), sex: "buck", name: "Gale" }, {})], "2026-03-11");
    expect(s.advice(id("Gale"))).toBeUndefined();
  });

  test("[AD-6] the vet's own last day wins over the literature's", () => {
    const own = anEntry("setting", { key: "buckling-end", value: 10 }, { on: "2026-01-05" });
    expect(advice("Tern", "2026-03-21", own)).toMatchObject({ kind: "ring-vet", end: "2026-03-20" });
  });

  test("[AD-6] the keeper's own weights move the advice: a dearer miss never turns it towards leaving", () => {
    const unclear = reading("Tern", "2026-03-20", { skin: { both: "slides-a-little" }, whorls: { both: "unclear" } });
    const order = ["leave", "look-again", "vet-list"];
    const at = (missed: number) => {
      const dear = anEntry("setting", { key: "loss-missed", value: missed }, { on: "2026-01-05" });
      return order.indexOf(advice("Tern", "2026-03-21", unclear, visit("2026-03-22"), dear)?.kind ?? "");
    };
    const advised = [0.01, 1, 3, 30].map(at);
    expect(advised).toEqual(advised.toSorted((a, b) => a - b));
    expect(advised[0]).toBe(0);
    expect(advised.at(-1)).toBeGreaterThan(0);
  });
});
