/** The day of the demo herd's next vet visit: two days ahead (fixtures/herds/README.md). */
function visitDay(): string {
  const day = new Date(Date.now() + 2 * 86_400_000);
  const two = (n: number) => String(n).padStart(2, "0");
  return `${day.getFullYear()}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;
}

/** Every screen of the app on the demo herd, by its address. */
export const SCREENS: readonly string[] = [
  "/",
  "/animals",
  "/find",
  "/animal/demo-rook",
  "/animal/demo-pip",
  "/animal/demo-ember",
  "/answer/demo-pip",
  "/answer/demo-moth",
  "/answer/demo-juniper",
  "/answer/demo-pip/shown",
  "/compare/demo-fescue",
  "/compare/demo-ember",
  "/photo/demo-pip",
  "/score",
  "/reading/demo-dunnock",
  "/reading/demo-dunnock/all",
  "/reading/demo-dunnock/check",
  "/kidding",
  "/kidding/demo-yarrow",
  "/kidding/demo-yarrow/check",
  "/outcome/demo-medlar",
  "/add",
  "/service/demo-hazel",
  "/fact/demo-hazel",
  "/plan",
  "/season/vet",
  "/seen/demo-yarrow",
  "/care",
  "/care/navel/demo-barley",
  "/visitors",
  "/sheet/barn",
  "/sheet/gate",
  "/sheet/kid/demo-ember",
  `/sheet/vet/${visitDay()}`,
  `/vet/${visitDay()}`,
  `/vet/${visitDay()}/demo-dunnock`,
  "/safe",
  "/problems",
  "/settings",
  "/holder",
  "/nowhere",
];

/** Screens that between them hold every colour there is: statuses, cards, answers, keys, links. */
export const COLOURFUL: readonly string[] = [
  "/",
  "/animals",
  "/answer/demo-pip",
  "/answer/demo-moth",
  "/reading/demo-dunnock",
  `/vet/${visitDay()}`,
  "/safe",
  "/compare/demo-fescue",
  "/photo/demo-pip",
  "/score",
  "/plan",
  "/care",
  "/visitors",
  "/problems",
  "/holder",
];
