import { addDays, day } from "@pollard/base";
import { anEntry } from "@pollard/records/testing";
import { describe, expect, test } from "vitest";
import { counted } from "../counted.ts";
import { kiddingDays } from "../season/pregnancies.ts";
import { todayModel } from "./today.ts";
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
import { vetList } from "./vet-list.ts";

const BORN = "2026-03-10";
const herd = [...ROOK_AND_ASH, kidding("Ash", BORN, { Tern: "buck", Wren: "doe" }, ["Rook"])];
type Entries = Parameters<typeof situation>[0];
/** The list as text, without care, which has tests of its own (season/care.test.ts). */
const tasks = (today: string, ...more: Entries) =>
  todayModel(situation([...herd, ...more], today)).tasks.flatMap(({ task, urgency }) => {
    if (task.kind === "care") return [];
    const about =
      "kid" in task
        ? task.kid.name
        : "doe" in task
          ? task.doe.name
          : "kids" in task
            ? task.kids.map((k) => k.name).join("+")
            : "";
    return [`${urgency} ${task.kind} ${about}`.trim()];
  });
const visit = (on: string) => anEntry("vet-day", { vet: "Dr Okafor" }, { on });

describe("today's list", () => {
  test("[AD-10] no goats, nothing to do", () => {
    expect(todayModel(situation([], "2026-03-11"))).toEqual({
      today: "2026-03-11",
      tasks: [],
      kidsInWindow: 0,
      doesToKid: 0,
    });
  });

  test("[AD-10] the more pressing first, the earlier day first", () => {
    expect(tasks("2026-03-14")).toEqual(["soon read-head Tern", "soon read-head Wren"]);
    expect(tasks("2026-03-15")).toEqual(["now read-head Tern", "soon read-head Wren"]);
  });

  test("[AD-11] what the keeper has chosen is not asked again", () => {
    const read = reading("Tern", "2026-03-15", POLLED_SIGNS);
    expect(tasks("2026-03-15", read, choice("Tern", "2026-03-15", "leave"))).toEqual(["soon read-head Wren"]);
  });

  test("[AD-11] unless what is known has changed against it", () => {
    const story = [
      reading("Tern", "2026-03-15", POLLED_SIGNS),
      reading("Tern", "2026-03-16", HORNED_SIGNS, "Ines"),
      choice("Tern", "2026-03-16", "leave"),
      anEntry("dna-test", { animal: id("Tern"), locus: "polled", alleles: ["p", "p"] }, { on: "2026-03-17" }),
      visit("2026-03-18"),
    ];
    expect(tasks("2026-03-17", ...story)).toContain("soon advice-changed Tern");
  });

  test("[AD-12] a kid for the vet with no visit planned: ask the vet to come; with one planned, it is on that list", () => {
    const horned = reading("Tern", "2026-03-13", HORNED_SIGNS);
    expect(tasks("2026-03-13", horned).some((t) => t.endsWith("ask-vet-to-come Tern"))).toBe(true);
    expect(tasks("2026-03-13", horned, visit("2026-03-15"))).toContain("soon vet-visit Tern");
  });

  test("[AD-12] a kid whose chosen day comes to nothing is not forgotten: another visit takes it, or the vet is asked", () => {
    const chosen = [
      reading("Tern", "2026-03-13", HORNED_SIGNS),
      choice("Tern", "2026-03-13", "vet-list", "2026-03-16"),
    ];
    const of = (today: string, ...more: Entries) =>
      tasks(today, ...chosen, ...more).filter((t) => t.includes("vet-visit") || t.includes("ask-vet"));
    expect(of("2026-03-15")).toEqual(["now ask-vet-to-come Tern"]);
    expect(of("2026-03-17")).toEqual(["now ask-vet-to-come Tern"]);
    expect(of("2026-03-17", visit("2026-03-18"))).toEqual(["soon vet-visit Tern"]);
    // Its window ends on 24 March: a visit after it takes nobody off the list of those to ask for.
    expect(of("2026-03-20", visit("2026-03-25"))).toEqual(["now ask-vet-to-come Tern", "planned vet-visit"]);
  });

  test("[AD-112] the vet is to be rung today where tomorrow would be less notice than is wanted, else by tomorrow", () => {
    const asked = (today: string, ...more: Entries) =>
      todayModel(
        situation(
          [
            ...herd,
            reading("Tern", "2026-03-13", HORNED_SIGNS),
            choice("Tern", "2026-03-13", "vet-list", "2026-03-18"),
            ...more,
          ],
          today,
        ),
      ).tasks.find(({ task }) => task.kind === "ask-vet-to-come");
    expect(asked("2026-03-14")).toMatchObject({ by: "2026-03-15", urgency: "soon", daysLeft: 1 });
    expect(asked("2026-03-16")).toMatchObject({ by: "2026-03-17", urgency: "soon" });
    expect(asked("2026-03-17")).toMatchObject({ by: "2026-03-17", urgency: "now", daysLeft: 0 });
    const wantsTwo = anEntry("setting", { key: "vet-notice-days", value: 2 }, { on: "2026-03-01" });
    expect(asked("2026-03-16", wantsTwo)).toMatchObject({ by: "2026-03-16", urgency: "now" });
  });

  test("[AD-12] a visit that is over stays on the list until something is entered for each kid that was on it", () => {
    const story = [
      visit("2026-03-16"),
      reading("Tern", "2026-03-13", HORNED_SIGNS),
      choice("Tern", "2026-03-13", "vet-list", "2026-03-16"),
    ];
    const of = (today: string, ...more: Entries) => tasks(today, ...story, ...more).filter((t) => t.includes("vet"));
    expect(of("2026-03-16")).toEqual(["now vet-visit Tern"]);
    expect(of("2026-03-18")).toEqual(["now vet-work-to-enter Tern"]);
    const done = (what: "both-sides" | "not-done") =>
      anEntry("disbudding", { kid: id("Tern"), done: what }, { on: "2026-03-16" });
    expect(of("2026-03-18", done("both-sides"))).toEqual([]);
    expect(of("2026-03-18", done("not-done"))).toEqual([]);
    expect(of("2026-03-27")).toEqual(["now ring-vet Tern", "now ring-vet Wren"]);
  });

  test("[AD-12] a planned visit is on the list from a week before until its own day", () => {
    const isListed = (on: string) => tasks("2026-03-13", visit(on)).some((t) => t.includes("vet-visit"));
    const days = ["2026-03-12", "2026-03-13", "2026-03-20", "2026-03-21"];
    expect(days.map(isListed)).toEqual([false, true, true, false]);
  });

  test("[AD-13] a doe served 150 days ago is watched; once she has kidded she is not", () => {
    const served = service("Ash", ["Rook"], "2026-04-01");
    expect(tasks("2026-08-28", served).filter((t) => t.includes("kidding-due"))).toEqual(["now kidding-due Ash"]);
    const born = kidding("Ash", "2026-08-29", { Pip: "doe" });
    expect(tasks("2026-08-30", served, born).filter((t) => t.includes("kidding-due"))).toEqual([]);
    expect(tasks("2026-10-30", served).filter((t) => t.includes("kidding-due"))).toEqual([]);
  });

  test("[AD-13] she is late only after the last of those days", () => {
    const served = service("Ash", ["Rook"], "2026-04-01");
    const due = (today: string) =>
      todayModel(situation([...herd, served], today)).tasks.find(({ task }) => task.kind === "kidding-due");
    const days = kiddingDays(situation([...herd, served], "2026-08-20").herd, id("Ash"));
    const [from, to] = [days?.from ?? "", days?.to ?? ""];
    expect([from, addDays(day(from), 3), to].map((on) => [due(on)?.urgency, due(on)?.daysLeft])).toEqual(
      Array.from({ length: 3 }, () => ["now", 0]),
    );
    expect(due(addDays(day(from), -1))?.daysLeft).toBe(1);
    expect(due(addDays(day(to), 2))?.daysLeft).toBe(-2);
  });

  test("[AD-14] at three months what grew is asked for, until it is on record", () => {
    expect(tasks("2026-06-10")).toEqual(["planned check-growth", "planned check-growth"]);
    expect(tasks("2026-06-10", outcome("Tern", "2026-06-08", "horn"))).toEqual(["planned check-growth"]);
  });

  test("[AD-8] past the window the vet is rung before all else", () => {
    expect(tasks("2026-03-27")[0]).toBe("now ring-vet Tern");
  });
});

describe("the days a doe may kid", () => {
  test("[AD-13] from one service: the middle at 150 or 151 days, nine in ten within about nine days", () => {
    const { herd: h } = situation([...herd, service("Ash", ["Rook"], "2026-10-05")], "2026-11-01");
    const days = kiddingDays(h, id("Ash"));
    expect([addDays(day("2026-10-05"), 150), addDays(day("2026-10-05"), 151)]).toContain(days?.likely);
    expect(days && days.from < days.likely && days.likely < days.to).toBe(true);
  });

  test("[AD-13] a pen period widens them by its length", () => {
    const narrow = kiddingDays(
      situation([...herd, service("Ash", ["Rook"], "2026-10-05")], "2026-11-01").herd,
      id("Ash"),
    );
    const wide = kiddingDays(
      situation([...herd, service("Ash", ["Rook"], "2026-10-05", "2026-10-25")], "2026-11-01").herd,
      id("Ash"),
    );
    expect(narrow && wide && wide.to > narrow.to && wide.from >= narrow.from).toBe(true);
  });
});

describe("the vet's list", () => {
  const list = (on: string, today: string, ...more: Entries) => {
    const { list, lookFirst } = vetList(situation([...herd, ...more], today), day(on));
    return {
      list: list.map((l) => `${l.kid.name} ${l.why}`),
      lookFirst: lookFirst.map((l) => `${l.kid.name} ${l.why}`),
    };
  };

  test("[AD-15] by the keeper's choice, by the advice, and what to look at first", () => {
    const horned = reading("Tern", "2026-03-13", HORNED_SIGNS);
    expect(list("2026-03-15", "2026-03-13", horned, visit("2026-03-15"))).toEqual({
      list: ["Tern advised"],
      lookFirst: ["Wren unread"],
    });
    expect(
      list("2026-03-15", "2026-03-13", horned, visit("2026-03-15"), choice("Tern", "2026-03-13", "leave")).list,
    ).toEqual([]);
    expect(
      list("2026-03-16", "2026-03-13", horned, choice("Tern", "2026-03-13", "vet-list", "2026-03-16")).list,
    ).toEqual(["Tern chosen"]);
  });

  test("[AD-16] a kid whose window is over on that day is not listed", () => {
    expect(list("2026-03-26", "2026-03-13", visit("2026-03-26"))).toEqual({ list: [], lookFirst: [] });
  });

  test("[AD-17] what was done on the day stays on its list", () => {
    const done = anEntry(
      "disbudding",
      { kid: id("Tern"), done: "both-sides", operator: "Dr Okafor" },
      { on: "2026-03-15" },
    );
    const { list } = vetList(situation([...herd, done, visit("2026-03-15")], "2026-03-15"), day("2026-03-15"));
    expect(list.map((l) => [l.kid.name, l.done?.done])).toEqual([["Tern", "both-sides"]]);
  });

  test("[UI-296] kids of one list are counted on one denominator, the finest that one of them needs", () => {
    const both = [
      reading("Tern", "2026-03-13", HORNED_SIGNS),
      choice("Tern", "2026-03-13", "vet-list", "2026-03-16"),
      reading("Wren", "2026-03-13", { skin: { both: "slides" } }),
      choice("Wren", "2026-03-13", "vet-list", "2026-03-16"),
    ];
    const { list } = vetList(situation([...herd, ...both], "2026-03-13"), day("2026-03-16"));
    const alone = list.map(({ belief }) => counted(belief?.horns ?? 0, "open").of);
    expect(new Set(alone).size).toBe(2);
    expect(list.map(({ belief }) => belief?.counted.of)).toEqual(list.map(() => Math.max(...alone)));
  });

  test("[AD-17] age and weight are those of the day", () => {
    const weighed = anEntry("weight", { animal: id("Tern"), kg: 3.4, how: "weighed" }, { on: "2026-03-14" });
    const s = situation(
      [
        ...herd,
        weighed,
        choice("Tern", "2026-03-13", "vet-list", "2026-03-16"),
        reading("Tern", "2026-03-12", HORNED_SIGNS),
      ],
      "2026-03-14",
    );
    expect(vetList(s, day("2026-03-16")).list[0]).toMatchObject({
      ageOnDay: 6,
      weight: { kg: 3.4, on: "2026-03-14" },
      end: "2026-03-24",
    });
  });
});
