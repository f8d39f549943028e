import type { Day } from "@pollard/base";
import type { AnimalRef, DatedTask, Urgency } from "@pollard/advice";
import type { WeightWords } from "../weights.ts";
import type { TaskSaid } from "../words.ts";
import { sayAnimal, sayHeadOf } from "./animals.ts";
import { care } from "./care.ts";
import { sayDay, sayDays } from "./days.ts";

/** How urgent, in words that stand beside the shape. */
export function sayUrgency(urgency: Urgency, daysLeft: number): string {
  switch (urgency) {
    case "now":
      return daysLeft < 0 ? "Overdue" : "Now";
    case "soon":
      return daysLeft <= 0 ? "Today" : `${sayDays(daysLeft)} left`;
    case "planned":
      return "Planned";
  }
}

const list = (refs: readonly AnimalRef[]): string => {
  const names = refs.map(sayAnimal);
  return names.length <= 3 ? names.join(", ") : `${names.slice(0, 2).join(", ")} and ${names.length - 2} more`;
};

const CHOICE: Record<string, string> = {
  leave: "leave it alone",
  "look-again": "look again",
  "vet-list": "the vet's list",
};

/** What to do first after a loss: it can be catching. */
const AFTER_LOSS_WHY = (["isolate-her", "gloves-and-vet", "keep-what-came"] as const)
  .map((code) => care.afterLoss(code))
  .join(" ");

/** A thing to do, by when and why. */
export function sayTask({ task, by }: DatedTask, today: Day, weights: WeightWords): TaskSaid {
  const until = `by ${sayDay(by, today)}`;
  switch (task.kind) {
    case "ring-vet":
      return {
        title: `Ring the vet about ${sayAnimal(task.kid)}`,
        when: "now",
        why:
          task.end < today
            ? `The safe window ended ${sayDay(task.end, today)}. Only the vet can say what is kind.`
            : `The window ends ${sayDay(task.end, today)}, and no visit fits before.`,
      };
    case "vet-visit":
      return {
        title: `The vet comes: ${sayKids(task.kids.length)}`,
        when: sayDay(task.day, today),
        why:
          task.unread.length > 0
            ? `Read these heads first: ${list(task.unread)}.`
            : task.kids.length > 0
              ? `On the list: ${list(task.kids)}.`
              : "Nobody is on the list yet.",
      };
    case "vet-work-to-enter":
      return {
        title: `Enter what the vet did: ${sayKids(task.kids.length)}`,
        when: `visit: ${sayDay(task.day, today)}`,
        why: `Nothing is entered for ${list(task.kids)}. Not seen? Ask the vet to come again.`,
      };
    case "ask-vet-to-come":
      return {
        title: `Ask the vet for ${sayDay(task.day, today)}`,
        when: by <= today ? "ring now" : `ring ${until}`,
        why: `${list(task.kids)}: the window ends ${sayDay(task.end, today)}.`,
      };
    case "read-head":
      return {
        title: `Read ${sayHeadOf(sayAnimal(task.kid))}`,
        when: until,
        why: `Nobody has read it yet. The window ends ${sayDay(task.end, today)}.`,
      };
    case "finish-reading":
      return {
        title: `Finish reading ${sayHeadOf(sayAnimal(task.kid))}`,
        when: until,
        why: `The last reading found nothing to go by. The window ends ${sayDay(task.end, today)}.`,
      };
    case "look-again":
      return {
        title: `Look again at ${sayHeadOf(sayAnimal(task.kid))}`,
        when: sayDay(task.day, today),
        why: `Not sure yet. The window ends ${sayDay(task.end, today)}.`,
      };
    case "advice-changed":
      return {
        title: `Think again about ${sayAnimal(task.kid)}`,
        when: `before ${sayDay(task.end, today)}`,
        why: `You chose ${CHOICE[task.chosen] ?? task.chosen}. What is known now says ${CHOICE[task.advised] ?? task.advised}.`,
      };
    case "kidding-due":
      return {
        title: task.overdue ? `${sayAnimal(task.doe)} is past her time` : `${sayAnimal(task.doe)} is due to kid`,
        when: `about ${sayDay(task.likely, today)}`,
        why: task.overdue
          ? `Most would have kidded by ${sayDay(task.to, today)}. Ask the vet if in doubt.`
          : `Watch her from ${sayDay(task.from, today)} to ${sayDay(task.to, today)}.`,
      };
    case "check-growth":
      return {
        title: `See what grew on ${sayAnimal(task.animal)}`,
        when: until,
        why: "At three months the head tells what it carries.",
      };
    case "falling-behind":
      return {
        title: `${sayAnimal(task.kid)} ${task.how === "losing" ? "is losing weight" : "gains too little"}`,
        when: "look now",
        why: `Weighed ${weights.said(task.lastKg)} ${sayDay(task.weighed, today)}. Is it drinking? Ask the vet if in doubt.`,
      };
    case "lost-kids":
      return {
        title: `${sayAnimal(task.doe)} lost her kids ${sayDay(task.on, today)}`,
        when: "now",
        why: AFTER_LOSS_WHY,
      };
    case "care":
      return {
        title: `${care.title(task.code)}: ${list(task.animals)}`,
        when: until,
        why: care.why(task.code),
      };
    case "problems":
      return {
        title: task.count === 1 ? "One entry does not fit" : `${task.count} entries do not fit`,
        when: "when you have a minute",
        why: "Nothing is lost. Each has a way to put it right.",
      };
  }
}

const sayKids = (n: number): string => (n === 0 ? "no kid on the list" : n === 1 ? "1 kid" : `${n} kids`);
