import type { Day } from "@pollard/base";
import type { AnimalRef, DatedTask, Urgency } from "@pollard/advice";
import type { TaskSaid } from "../words.ts";
import { sayAnimal } from "./animals.ts";
import { care } from "./care.ts";
import { sayDay, sayDays } from "./days.ts";

/** Cuánto urge, en palabras que van junto a la forma. */
export function sayUrgency(urgency: Urgency, daysLeft: number): string {
  switch (urgency) {
    case "now":
      return daysLeft < 0 ? "Pasado" : "Ahora";
    case "soon":
      return daysLeft <= 0 ? "Hoy" : `Quedan ${sayDays(daysLeft)}`;
    case "planned":
      return "Previsto";
  }
}

const list = (refs: readonly AnimalRef[]): string => {
  const names = refs.map(sayAnimal);
  return names.length <= 3 ? names.join(", ") : `${names.slice(0, 2).join(", ")} y ${names.length - 2} más`;
};

const CHOICE: Record<string, string> = {
  leave: "dejarla",
  "look-again": "mirar otra vez",
  "vet-list": "la lista del veterinario",
};

/** Qué hacer primero tras una pérdida: puede ser contagiosa. */
const AFTER_LOSS_WHY = (["isolate-her", "gloves-and-vet", "keep-what-came"] as const)
  .map((code) => care.afterLoss(code))
  .join(" ");

/** Algo por hacer, para cuándo y por qué. */
export function sayTask({ task, by }: DatedTask, today: Day): TaskSaid {
  const until = `antes de acabar ${sayDay(by, today)}`;
  switch (task.kind) {
    case "ring-vet":
      return {
        title: `Llame al veterinario por ${sayAnimal(task.kid)}`,
        when: "ahora",
        why:
          task.end < today
            ? `El plazo seguro acabó ${sayDay(task.end, today)}. Solo el veterinario sabe qué es bueno.`
            : `El plazo acaba ${sayDay(task.end, today)}, y ninguna visita cabe antes.`,
      };
    case "vet-visit":
      return {
        title: `Viene el veterinario: ${sayKids(task.kids.length)}`,
        when: sayDay(task.day, today),
        why:
          task.unread.length > 0
            ? `Lea antes estas cabezas: ${list(task.unread)}.`
            : task.kids.length > 0
              ? `En la lista: ${list(task.kids)}.`
              : "Aún no hay nadie en la lista.",
      };
    case "ask-vet-to-come":
      return {
        title: `Pida al veterinario para ${sayDay(task.day, today)}`,
        when: "llame ahora",
        why: `${list(task.kids)}: el plazo acaba ${sayDay(task.end, today)}.`,
      };
    case "read-head":
      return {
        title: `Lea la cabeza de ${sayAnimal(task.kid)}`,
        when: until,
        why: `Nadie la ha leído aún. El plazo acaba ${sayDay(task.end, today)}.`,
      };
    case "finish-reading":
      return {
        title: `Termine de leer la cabeza de ${sayAnimal(task.kid)}`,
        when: until,
        why: `La última lectura no halló nada en que basarse. El plazo acaba ${sayDay(task.end, today)}.`,
      };
    case "look-again":
      return {
        title: `Mire otra vez la cabeza de ${sayAnimal(task.kid)}`,
        when: sayDay(task.day, today),
        why: `Aún no es seguro. El plazo acaba ${sayDay(task.end, today)}.`,
      };
    case "advice-changed":
      return {
        title: `Piense de nuevo en ${sayAnimal(task.kid)}`,
        when: `antes de ${sayDay(task.end, today)}`,
        why: `Usted eligió ${CHOICE[task.chosen] ?? task.chosen}. Lo que se sabe ahora dice ${CHOICE[task.advised] ?? task.advised}.`,
      };
    case "kidding-due":
      return {
        title: task.overdue ? `${sayAnimal(task.doe)} pasó de fecha` : `A ${sayAnimal(task.doe)} le toca parir`,
        when: `hacia ${sayDay(task.likely, today)}`,
        why: task.overdue
          ? `La mayoría habría parido para ${sayDay(task.to, today)}. En la duda, pregunte al veterinario.`
          : `Vigílela de ${sayDay(task.from, today)} a ${sayDay(task.to, today)}.`,
      };
    case "check-growth":
      return {
        title: `Vea qué le creció a ${sayAnimal(task.animal)}`,
        when: until,
        why: "A los tres meses la cabeza dice lo que lleva.",
      };
    case "falling-behind":
      return {
        title: `${sayAnimal(task.kid)} ${task.how === "losing" ? "pierde peso" : "gana muy poco"}`,
        when: "mire ahora",
        why: `Pesó ${care.kilos(task.lastKg)} ${sayDay(task.weighed, today)}. ¿Bebe? En la duda, pregunte al veterinario.`,
      };
    case "lost-kids":
      return {
        title: `${sayAnimal(task.doe)} perdió sus crías ${sayDay(task.on, today)}`,
        when: "ahora",
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
        title: task.count === 1 ? "Una entrada no encaja" : `${task.count} entradas no encajan`,
        when: "cuando tenga un minuto",
        why: "Nada se pierde. Cada cosa tiene arreglo.",
      };
  }
}

const sayKids = (n: number): string => (n === 0 ? "ninguna cría en la lista" : n === 1 ? "1 cría" : `${n} crías`);
