import type { HelpPage, Term } from "../help-page.ts";

/** The pages, in the order in which a beginner would read them. */
export const helpPages: readonly HelpPage[] = [
  {
    id: "polled",
    title: "What polled means",
    short: "Polled goats grow no horns, from birth. One gene decides.",
    parts: [
      {
        heading: "One gene, two forms",
        lines: [
          "Each goat has two copies of it, one from each parent.",
          "P makes a polled head, p a horned one. One P is enough.",
          "PP and Pp goats are polled. Pp goats can have horned kids.",
          "pp goats grow horns.",
        ],
      },
      {
        heading: "What to expect",
        lines: [
          "Pp with horned: about half of many kids are polled.",
          "PP with horned: every kid is polled.",
          "Each kid is a fresh draw. One litter may be all of one kind.",
        ],
      },
      {
        heading: "Knobs and scurs",
        drawn: "knob",
        lines: [
          "A polled head has two bony knobs, and may have loose scurs.",
          "From three months on their shape tells PP from Pp. One study says so.",
          "Scurs on a disbudded head are regrowth. They say nothing of the gene.",
        ],
      },
    ],
    sources: ["ricordeau1967", "pailhoux2005", "hancock-louca1975", "ricordeau1972"],
  },
  {
    id: "two-polled",
    title: "Why never two polled parents",
    short: "A daughter with two P genes becomes intersex and cannot breed.",
    parts: [
      {
        heading: "What happens",
        lines: [
          "The P form does a second thing: two copies turn a female's body towards male.",
          "Of many kids of two Pp parents, one in eight is such a female.",
          "She is sterile. Some look like does, some like bucks, some like neither.",
          "Only about half are noticed at birth.",
        ],
      },
      {
        heading: "So looking is not enough",
        lines: [
          "A polled kid of two polled parents that looks like a doe may be intersex.",
          "A polled doe that has kidded is Pp, never PP.",
          "A PP buck may be of doubtful fertility. About half are, by one book.",
        ],
      },
      {
        heading: "What to do",
        lines: [
          "Pair polled with horned. Half of many kids are polled, and none of this happens.",
          "Pollard plans no pairing of two polled goats.",
          "Signs of both sexes at birth: show the kid to the vet.",
        ],
      },
    ],
    sources: ["pailhoux2005", "hancock-louca1975", "lauvergne1969", "vaiman1997", "krausslich-brem1997"],
  },
  {
    id: "reading",
    title: "How to read a head",
    short: "Feel first, then skin, whorls and crown. Look again when unsure.",
    parts: [
      {
        heading: "Before you begin",
        lines: [
          "Warm, dry hands. Dry the kid's head. Hold it facing you.",
          "A kid that is cold, weak or wet is looked after first.",
          "Not sure is a good answer. Pollard names a day to look again.",
        ],
      },
      {
        heading: "The bump",
        drawn: "feel",
        lines: ["One fingertip, in front of each ear.", "Bucks show it at or near birth, does some days later."],
      },
      { heading: "The skin", drawn: "skin", lines: ["Push it sideways. Over a horn bud it is held fast."] },
      { heading: "The whorls", drawn: "whorls", lines: ["Hair that turns round one point, over each site."] },
      { heading: "The crown", drawn: "crown", lines: ["The outline of the hair between the ears."] },
      {
        heading: "How sure is that?",
        lines: [
          "No study has measured how often such a reading is right.",
          "The signs are what keepers say. Pollard learns from what grew on your own kids.",
          "So confirm every head at about three months, disbudded or not.",
        ],
      },
    ],
    sources: ["common-practice", "judgement"],
  },
  {
    id: "vet",
    title: "When to call the vet",
    short: "Before the window closes; and at once when a kid is unwell.",
    parts: [
      {
        heading: "The window",
        lines: [
          "Horn buds are removed in the first days, or not at all.",
          "Bucks are due at 3 to 5 days, does at 5 to 7.",
          "Sources disagree. None of those read goes past 14 days here.",
          "After that it is dehorning, which is surgery. Ring the vet.",
          "Your vet's own ages win. Enter them under Settings.",
        ],
      },
      {
        heading: "Who may do it",
        lines: [
          "In many countries only a vet may, and only under anaesthesia.",
          "In some it is not allowed as a routine. Ask before the first kid.",
          "Pollard names no drug and no amount. That is the vet's.",
        ],
      },
      {
        heading: "Ring at once",
        lines: [
          "A kid that will not stand, will not drink or feels cold.",
          "After disbudding: a dull kid, pressing its head, circling, blind or in fits.",
          "A wound that is wet, hot or smells.",
          "A doe that strains for half an hour and nothing comes.",
        ],
      },
      {
        heading: "Before the visit",
        lines: ["Print the list, or show it on the screen.", "Weigh each kid. Say whether its dam had tetanus cover."],
      },
    ],
    sources: [
      "avma-disbudding",
      "ava2022",
      "hempstead2019",
      "shearer-plummer",
      "msu-p3879",
      "wagmann2018",
      "parturition-dystocia",
      "common-practice",
    ],
  },
  {
    id: "numbers",
    title: "What the numbers mean",
    short: "About 3 in 4 is said of many such kids, not of one.",
    parts: [
      {
        heading: "Counted, not graded",
        lines: [
          "About 3 in 4 grow horns: of four such kids, three do, on average.",
          "Filled squares count one side, hollow squares the other.",
          "None and all are said only of what is proven.",
        ],
      },
      {
        heading: "Luck and doubt",
        lines: [
          "Luck is which gene a kid draws. Nobody can know it before.",
          "Doubt is what we do not know of the parents. A test or more kids end it.",
          "A range in words shows how far doubt reaches.",
        ],
      },
      {
        heading: "Where they come from",
        lines: [
          "From every head, test and birth on record, all goats at once.",
          "Why? names what spoke for and what against.",
          "A wrong sire in the book makes wrong numbers. Pollard says when it suspects one.",
        ],
      },
      {
        heading: "Were they right?",
        lines: ["The record of calls shows how often a number came true."],
      },
    ],
    sources: ["coventry-dalgleish-2015", "asdell-crew1925", "judgement"],
  },
  {
    id: "notes",
    title: "Who keeps my notes",
    short: "This device does, at once. The hub and backups keep them twice.",
    parts: [
      {
        heading: "On this device",
        lines: [
          "Every tap is on the device's disk before the tick shows.",
          "It works without a signal. Nothing is sent to anybody else.",
          "A phone can be lost or wiped. So keep a second copy.",
        ],
      },
      {
        heading: "The second copy",
        lines: [
          "The hub on your computer takes everything when the phone is near.",
          "A backup file can be carried anywhere. Safe shows when the last was made.",
        ],
      },
      {
        heading: "Nothing is overwritten",
        lines: [
          "A correction stands beside what it corrects. History shows both.",
          "Entered by mistake hides an entry. It can be brought back.",
        ],
      },
    ],
    sources: ["judgement"],
  },
];

/** In the order of the alphabet. */
export const terms: readonly Term[] = [
  { word: "Allele", means: "One form of a gene. Each goat has two, one from each parent." },
  { word: "Buck, doe, wether", means: "A male, a female, a castrated male." },
  { word: "Bud", means: "What a horn grows from, felt under the skin in the first days." },
  { word: "Carrier", means: "Shows nothing of a gene but hands it on. Pp goats carry horns." },
  { word: "Crown", means: "The top of the head between the ears, with its hair." },
  { word: "Dam, sire", means: "Mother, father." },
  { word: "Disbudding", means: "Removing the buds of a young kid. It is the vet's matter, under pain relief." },
  { word: "Founder", means: "A goat whose parents are not on record." },
  { word: "Heat", means: "The day or two on which a doe takes the buck, about every three weeks." },
  { word: "Inbreeding", means: "A kid whose parents share ancestors. F says how closely." },
  { word: "Intersex", means: "With signs of both sexes. In goats nearly always from two polled parents." },
  { word: "Kid, kidding, litter", means: "A young goat, a birth, and all kids of one birth." },
  { word: "Knob", means: "The bony bump of a polled head." },
  { word: "Outcome", means: "What grew in the end, looked up at about three months." },
  { word: "Polled", means: "Without horns by birth." },
  { word: "Reading", means: "What one person found on one kid's head at one time." },
  { word: "Regrowth", means: "What grows again where a bud was removed." },
  { word: "Rut", means: "The season in which does come into heat." },
  { word: "Scur", means: "A loose or stunted horn." },
  { word: "Service", means: "A mating: by hand, in a pen, or by insemination." },
  { word: "Wattles", means: "Two tassels of skin at the throat. They are inherited, too." },
  { word: "Whorl", means: "Hair that turns round one point." },
  { word: "Window", means: "The ages at which your vet removes buds." },
];

/** What a source is called in print; what is no paper is said plainly. */
export const sourceNames: Readonly<Record<string, string>> = {
  "common-practice": "Keepers' practice; no study is known",
  judgement: "Our judgement",
  ricordeau1967: "Ricordeau and others 1967",
  ricordeau1972: "Ricordeau 1972",
  pailhoux2005: "Pailhoux and others 2005",
  "hancock-louca1975": "Hancock and Louca 1975",
  lauvergne1969: "Lauvergne 1969",
  vaiman1997: "Vaiman and others 1997",
  "krausslich-brem1997": "Kräußlich and Brem 1997, quoted",
  "asdell-crew1925": "Asdell and Crew 1925",
  "avma-disbudding": "American Veterinary Medical Association, policy",
  ava2022: "Australian Veterinary Association 2022, policy",
  hempstead2019: "Hempstead and others 2019",
  "shearer-plummer": "Shearer and Plummer, Iowa State University",
  "msu-p3879": "Mississippi State University Extension P3879",
  wagmann2018: "Wagmann and others 2018",
  "parturition-dystocia": "Teaching text on difficult births",
  "coventry-dalgleish-2015": "Coventry and Dalgleish 2015",
};
