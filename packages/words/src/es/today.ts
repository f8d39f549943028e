import type { Day } from "@pollard/base";
import type { AnimalRef, DatedTask, Urgency } from "@pollard/advice";
import type { WeightWords } from "../weights.ts";
import type { TaskSaid } from "../words.ts";
import { sayAnimal } from "./animals.ts";
import { AFTER_LOSS, care } from "./care.ts";
import { al, del, el, sayDay, sayDays } from "./days.ts";
import { many, opening } from "./numbers.ts";

/** How urgent, in words that stand beside the shape. */
export function sayUrgency(urgency: Urgency, daysLeft: number): string {
  switch (urgency) {
    case "now":
      return daysLeft < 0 ? "Atrasado" : "Ahora";
    case "soon":
      return daysLeft <= 0 ? "Hoy" : `${daysLeft === 1 ? "Queda" : "Quedan"} ${sayDays(daysLeft)}`;
    case "planned":
      return "Previsto";
  }
}

const list = (refs: readonly AnimalRef[]): string => {
  const names = refs.map(sayAnimal);
  return names.length <= 3 ? names.join(", ") : `${names.slice(0, 2).join(", ")} y ${names.length - 2} más`;
};

const CHOICE: Record<string, string> = {
  leave: "dejarla en paz",
  "look-again": "mirar otra vez",
  "vet-list": "la lista del veterinario",
};

/** What to do first after a loss: it can be catching. */
const AFTER_LOSS_WHY = [AFTER_LOSS["isolate-her"], AFTER_LOSS["gloves-and-vet"], AFTER_LOSS["keep-what-came"]].join(
  " ",
);

/** A thing to do, by when and why. */
export function sayTask({ task, by }: DatedTask, today: Day, weights: WeightWords): TaskSaid {
  const said = (d: Day): string => sayDay(d, today);
  const day = (d: Day): string => el(said(d));
  const until = `hasta ${day(by)}`;
  switch (task.kind) {
    case "ring-vet":
      return {
        title: `Llame al veterinario por ${sayAnimal(task.kid)}`,
        when: "ahora",
        why:
          task.end < today
            ? `El plazo seguro terminó ${day(task.end)}. Solo el veterinario puede decir qué es compasivo.`
            : `El plazo termina ${day(task.end)}, y antes no cabe visita.`,
      };
    case "vet-visit":
      return {
        title: `Viene el veterinario: ${sayKids(task.kids.length)}`,
        when: day(task.day),
        why:
          task.unread.length > 0
            ? `Lea primero estas cabezas: ${list(task.unread)}.`
            : task.kids.length > 0
              ? `En la lista: ${list(task.kids)}.`
              : "Aún no hay nadie en la lista.",
      };
    case "vet-work-to-enter":
      return {
        title: `Anote lo que hizo el veterinario: ${sayKids(task.kids.length)}`,
        when: `visita ${del(said(task.day))}`,
        why: `No hay nada anotado de ${list(task.kids)}. ¿No se vio? Pida otra visita.`,
      };
    case "ask-vet-to-come":
      return {
        title: `Pida al veterinario que venga ${day(task.day)}`,
        when: by <= today ? "llame ahora" : `llame a más tardar ${day(by)}`,
        why: `${list(task.kids)}: el plazo termina ${day(task.end)}.`,
      };
    case "read-head":
      return {
        title: `Lea la cabeza: ${sayAnimal(task.kid)}`,
        when: until,
        why: `Nadie la ha leído aún. El plazo termina ${day(task.end)}.`,
      };
    case "finish-reading":
      return {
        title: `Termine de leer la cabeza: ${sayAnimal(task.kid)}`,
        when: until,
        why: `La última lectura no halló nada en qué apoyarse. El plazo termina ${day(task.end)}.`,
      };
    case "look-again":
      return {
        title: `Mire otra vez la cabeza: ${sayAnimal(task.kid)}`,
        when: day(task.day),
        why: `Aún no es seguro. El plazo termina ${day(task.end)}.`,
      };
    case "advice-changed":
      return {
        title: `Piense otra vez en ${sayAnimal(task.kid)}`,
        when: `antes ${del(said(task.end))}`,
        why: `Usted eligió ${CHOICE[task.chosen] ?? task.chosen}. Lo que ahora se sabe pide ${CHOICE[task.advised] ?? task.advised}.`,
      };
    case "kidding-due":
      return {
        title: opening(`${sayAnimal(task.doe)} ${task.overdue ? "ya se pasó de fecha" : "está por parir"}`),
        when: `hacia ${day(task.likely)}`,
        why: task.overdue
          ? `La mayoría habría parido hasta ${day(task.to)}. Si duda, pregunte al veterinario.`
          : `Vigílela ${del(said(task.from))} ${al(said(task.to))}.`,
      };
    case "check-growth":
      return {
        title: `Mire qué creció: ${sayAnimal(task.animal)}`,
        when: until,
        why: "A los tres meses la cabeza dice qué lleva.",
      };
    case "falling-behind":
      return {
        title: opening(`${sayAnimal(task.kid)} ${care.growth(task.how)}`),
        when: "mire ahora",
        why: `Pesó ${weights.said(task.lastKg)} ${day(task.weighed)}. ¿Toma leche? Si duda, pregunte al veterinario.`,
      };
    case "lost-kids":
      return {
        title: opening(`${sayAnimal(task.doe)} perdió sus crías ${day(task.on)}`),
        when: "ahora",
        why: AFTER_LOSS_WHY,
      };
    case "care":
      return { title: `${care.title(task.code)}: ${list(task.animals)}`, when: until, why: care.why(task.code) };
    case "problems":
      return {
        title: task.count === 1 ? "Una entrada no encaja" : `${task.count} entradas no encajan`,
        when: "cuando tenga un minuto",
        why: "No se ha perdido nada. Cada uno tiene arreglo.",
      };
  }
}

const sayKids = (n: number): string => (n === 0 ? "ninguna cría en la lista" : many(n, "cría", "crías"));
