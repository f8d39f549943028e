import type { CalendarItem, ExpectedDoe, OtherCount, VetDayLine, VetDaysModel } from "@pollard/advice";
import type { Day } from "@pollard/base";
import { sayAnimal } from "./animals.ts";
import { care } from "./care.ts";
import { del, el, sayDay, sayTableDay } from "./days.ts";
import { decimal } from "./numbers.ts";

/** Una cuenta con fracción como la dice una persona. */
function sayAbout(n: number): string {
  if (n < 0.05) return "casi ninguna";
  if (n < 0.3) return "apenas una";
  if (n < 0.75) return "quizá una";
  return n < 1.5 ? "más o menos una" : `unas ${Math.round(n)}`;
}

/** Lo mismo de cabezas: en singular mientras no sean varias. */
const sayAboutHeads = (n: number): string => `${sayAbout(n)} ${n < 1.5 ? "cabeza" : "cabezas"}`;

const tenth = (n: number): string => decimal(Math.round(n * 10) / 10, 1).replace(/,0$/, "");

function sayHeads({ expected, low, high, taken }: VetDayLine): string {
  const here =
    low === high ? `${low} ${low === 1 ? "cabeza" : "cabezas"}` : `${sayAbout(expected)}, de ${low} a ${high}`;
  return taken === undefined ? here : `${here}; caben ${tenth(taken)}`;
}

function sayVisitFrom({ from }: VetDayLine, most = 6): string {
  const said = from
    .filter(({ expected }) => expected === undefined || expected >= 0.05)
    .map(({ animal, what }) => (what === "kid" ? sayAnimal(animal) : `crías de ${sayAnimal(animal)}`));
  const more = said.length - most;
  return more > 0 ? `${said.slice(0, most).join(", ")} y ${more} más` : said.join(", ");
}

function sayOtherCount(other: OtherCount, which: "fewer" | "more"): string {
  const kids = Math.abs(other.missed);
  const days = Math.abs(other.lateDays);
  const kid = `${tenth(kids)} ${tenth(kids) === "1" ? "cría" : "crías"}`;
  const late = `${tenth(days)} ${tenth(days) === "1" ? "día" : "días"}`;
  if (which === "fewer")
    return `Una visita menos: ${kid} más ${other.missed >= 0 ? "perdidas" : "alcanzadas"}, ${late} más ${other.lateDays >= 0 ? "tarde" : "temprano"} en total.`;
  return `Una visita más: ${kid} perdidas ${other.missed <= 0 ? "menos" : "más"}, ${late} más ${other.lateDays <= 0 ? "temprano" : "tarde"} en total.`;
}

function sayLimit({ heads, kept }: NonNullable<VetDaysModel["limit"]>): string {
  const most = `Como mucho ${heads} cabezas por visita`;
  switch (kept) {
    case "yes":
      return `${most}: se cumple, en lo esperado. Pueden venir más.`;
    case "best-found":
      return `${most}: se cumple, con el mejor plan hallado a tiempo.`;
    case "not-asked":
      return `Se pidió: ${most.toLowerCase()}. Este plan no lo cumple.`;
  }
}

function sayPlan({ visits, heads, missed, does, kids }: VetDaysModel): string {
  if (does + kids === 0) return "Ninguna cabra por parir y ninguna cabeza abierta.";
  if (visits.length === 0) return "No vale la pena pedir ninguna visita.";
  const days = visits.length === 1 ? "1 visita" : `${visits.length} visitas`;
  return `${days} para ${sayAboutHeads(heads)}; fuera de plazo: ${sayAbout(missed)}.`;
}

function sayExpected({ doe, inKid, days, served }: ExpectedDoe, today: Day): string {
  const name = sayAnimal(doe);
  if (days === undefined) return `${name} tuvo monta, pero lo más probable es que esté vacía.`;
  if (served.to > today)
    return `A ${name} le toca desde alrededor ${del(sayDay(days.from, today))}. Sigue con el macho.`;
  const sure = inKid > 0.97 ? "" : inKid < 0.5 ? " Bien puede estar vacía." : " No es seguro que esté preñada.";
  return `A ${name} le toca hacia ${el(sayDay(days.likely, today))}.${sure}`;
}

function sayCalendar({ matter }: CalendarItem, today: Day): { readonly title: string; readonly note: string } {
  switch (matter.kind) {
    case "due":
      return {
        title: `A ${sayAnimal(matter.doe)} le toca parir`,
        note: `Lo más probable ${sayTableDay(matter.likely)}. Nueve de cada diez paren en estos días.`,
      };
    case "look":
      return {
        title: `Mirar la cabeza de ${sayAnimal(matter.kid)}`,
        note: `El plazo del veterinario acaba ${el(sayDay(matter.end, today))}.`,
      };
    case "vet":
      return {
        title: matter.vet === undefined ? "Viene el veterinario" : `Viene el veterinario: ${matter.vet}`,
        note: "Pese las crías por la mañana. Imprima la lista la víspera.",
      };
    case "care":
      return { title: `${care.title(matter.code)}: ${sayAnimal(matter.animal)}`, note: care.why(matter.code) };
  }
}

/** Palabras de la temporada en pantalla y en papel. */
export const season = {
  tableDay: sayTableDay,
  heads: sayHeads,
  visitFrom: sayVisitFrom,
  otherCount: sayOtherCount,
  limit: sayLimit,
  plan: sayPlan,
  expected: sayExpected,
  calendar: sayCalendar,
  calendarName: (herd: string | undefined): string => (herd === undefined ? "Cabras" : `Cabras de ${herd}`),
  states: { agreed: "acordado", proposed: "por pedir" },
  fewerHow: "Los días pasados de los mejores se suman en todas las crías.",
  whyRange: "Nueve de cada diez veces el número está en ese margen.",
} as const;
