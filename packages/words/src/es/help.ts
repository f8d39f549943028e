import type { HelpPage, Term } from "../help-page.ts";

/** Las páginas, en el orden en que las leería quien empieza. */
export const helpPages: readonly HelpPage[] = [
  {
    id: "polled",
    title: "Qué es ser mocho",
    short: "Los mochos no echan cuernos, de nacimiento. Lo decide un gen.",
    parts: [
      {
        heading: "Un gen, dos formas",
        lines: [
          "Cada animal tiene dos copias, una de cada padre.",
          "P da cabeza mocha, p da cuernos. Basta una P.",
          "PP y Pp son mochos. Los Pp pueden tener crías con cuernos.",
          "Los pp echan cuernos.",
        ],
      },
      {
        heading: "Qué esperar",
        lines: [
          "Pp con pareja con cuernos: de muchas crías, la mitad son mochas.",
          "PP con pareja con cuernos: todas las crías son mochas.",
          "Cada cría es un sorteo nuevo. Un parto puede salir todo igual.",
        ],
      },
      {
        heading: "Bultos y cuernitos",
        drawn: "knob",
        lines: [
          "Una cabeza mocha tiene dos bultos de hueso, y quizá cuernitos sueltos.",
          "Desde los tres meses su forma distingue PP de Pp. Lo dice un estudio.",
          "Cuernitos en una cabeza desbotonada son rebrote. Nada dicen del gen.",
        ],
      },
    ],
    sources: ["ricordeau1967", "pailhoux2005", "hancock-louca1975", "ricordeau1972"],
  },
  {
    id: "two-polled",
    title: "Por qué nunca dos padres mochos",
    short: "Una hija con dos genes P sale intersexual y no puede reproducirse.",
    parts: [
      {
        heading: "Qué pasa",
        lines: [
          "La forma P hace otra cosa: dos copias vuelven macho el cuerpo de una hembra.",
          "De muchas crías de dos padres Pp, una de cada ocho es así.",
          "Es estéril. Unas parecen hembras, otras machos, otras ninguna de las dos.",
          "Solo la mitad se nota al nacer.",
        ],
      },
      {
        heading: "Así que mirar no basta",
        lines: [
          "Una cría mocha de dos mochos que parece hembra puede ser intersexual.",
          "Una cabra mocha que ha parido es Pp, nunca PP.",
          "Un macho PP puede ser de fertilidad dudosa. Cerca de la mitad, según un libro.",
        ],
      },
      {
        heading: "Qué hacer",
        lines: [
          "Empareje mocho con uno con cuernos. La mitad sale mocha, sin nada de esto.",
          "Pollard no planea ninguna pareja de dos mochos.",
          "Signos de ambos sexos al nacer: enséñela al veterinario.",
        ],
      },
    ],
    sources: ["pailhoux2005", "hancock-louca1975", "lauvergne1969", "vaiman1997", "krausslich-brem1997"],
  },
  {
    id: "reading",
    title: "Cómo leer una cabeza",
    short: "Primero el tacto, luego piel, remolinos y coronilla. En la duda, otra mirada.",
    parts: [
      {
        heading: "Antes de empezar",
        lines: [
          "Manos calientes y secas. Seque la cabeza. La cría de frente.",
          "Una cría fría, débil o mojada se atiende primero.",
          "No sé es una buena respuesta. Pollard dice un día para volver.",
        ],
      },
      {
        heading: "El bulto",
        drawn: "feel",
        lines: [
          "La yema de un dedo, delante de cada oreja.",
          "Los machos lo muestran al nacer o casi, las hembras días después.",
        ],
      },
      { heading: "La piel", drawn: "skin", lines: ["Empújela a un lado. Sobre un botón está sujeta."] },
      { heading: "Los remolinos", drawn: "whorls", lines: ["Pelo que gira alrededor de un punto, en cada sitio."] },
      { heading: "La coronilla", drawn: "crown", lines: ["El contorno del pelo entre las orejas."] },
      {
        heading: "¿Cuánto vale eso?",
        lines: [
          "Ningún estudio ha medido cuántas veces acierta.",
          "Los signos los dicen los criadores. Pollard aprende de sus propias crías.",
          "Confirme cada cabeza a los tres meses, desbotonada o no.",
        ],
      },
    ],
    sources: ["common-practice", "judgement"],
  },
  {
    id: "vet",
    title: "Cuándo llamar al veterinario",
    short: "Antes de que acabe el plazo; y enseguida si una cría está mal.",
    parts: [
      {
        heading: "El plazo",
        lines: [
          "Los botones se quitan en los primeros días, o no se quitan.",
          "A los machos les toca de 3 a 5 días. A las hembras, de 5 a 7.",
          "Las fuentes difieren. Aquí ninguna de las leídas pasa de 14 días.",
          "Después es descornar, que es cirugía. Llame al veterinario.",
          "Mandan las edades de su veterinario. Póngalas en Ajustes.",
        ],
      },
      {
        heading: "Quién puede hacerlo",
        lines: [
          "En muchos países solo un veterinario puede, y solo con anestesia.",
          "En algunos no se permite como rutina. Pregunte antes de la primera cría.",
          "Pollard no nombra fármaco ni cantidad. Eso es del veterinario.",
        ],
      },
      {
        heading: "Llame enseguida",
        lines: [
          "Una cría que no se levanta, no bebe o está fría.",
          "Tras desbotonar: apagada, apoya la cabeza, gira, no ve o convulsiona.",
          "Una herida mojada, caliente o que huele.",
          "Una cabra que se esfuerza media hora y no sale nada.",
        ],
      },
      {
        heading: "Antes de la visita",
        lines: [
          "Imprima la lista, o muéstrela en la pantalla.",
          "Pese cada cría. Diga si la madre estaba protegida del tétanos.",
        ],
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
    title: "Qué significan los números",
    short: "Cerca de 3 de cada 4 se dice de muchas crías así, no de una.",
    parts: [
      {
        heading: "Contado, no calificado",
        lines: [
          "Cerca de 3 de cada 4 echan cuernos: de cuatro así, tres, de media.",
          "Los cuadros llenos cuentan un lado, los vacíos el otro.",
          "Ninguno y todos se dicen solo de lo comprobado.",
        ],
      },
      {
        heading: "Azar y duda",
        lines: [
          "Azar es qué gen saca una cría. Nadie puede saberlo antes.",
          "Duda es lo que no sabemos de los padres. Una prueba o más crías la acaban.",
          "Un margen en palabras muestra hasta dónde llega la duda.",
        ],
      },
      {
        heading: "De dónde salen",
        lines: [
          "De cada cabeza, prueba y parto anotados, todos los animales a la vez.",
          "¿Por qué? dice qué habló a favor y qué en contra.",
          "Un padre falso da números falsos. Pollard avisa si sospecha uno.",
        ],
      },
      { heading: "¿Acertaron?", lines: ["El registro de pronósticos muestra cuántas veces un número se cumplió."] },
    ],
    sources: ["coventry-dalgleish-2015", "asdell-crew1925", "judgement"],
  },
  {
    id: "notes",
    title: "Quién guarda mis notas",
    short: "Este aparato, enseguida. El servidor y las copias las guardan otra vez.",
    parts: [
      {
        heading: "En este aparato",
        lines: [
          "Cada toque está en el disco antes de que aparezca la marca.",
          "Funciona sin señal. Nada se envía a nadie más.",
          "Un teléfono se pierde o se borra. Tenga una segunda copia.",
        ],
      },
      {
        heading: "La segunda copia",
        lines: [
          "El servidor de su computadora lo toma todo cuando el teléfono está cerca.",
          "Un archivo de copia va a cualquier parte. A salvo muestra la última.",
        ],
      },
      {
        heading: "Nada se sobrescribe",
        lines: [
          "Una corrección queda junto a lo que corrige. La historia muestra ambas.",
          "Anotado por error esconde una entrada. Se puede recuperar.",
        ],
      },
    ],
    sources: ["judgement"],
  },
];

/** En orden alfabético. */
export const terms: readonly Term[] = [
  { word: "Alelo", means: "Una forma de un gen. Cada animal tiene dos, una de cada padre." },
  { word: "Botón", means: "De lo que crece un cuerno, se nota bajo la piel los primeros días." },
  { word: "Bulto", means: "La protuberancia de hueso de una cabeza mocha." },
  { word: "Cabra, macho, castrado", means: "Hembra, macho, macho castrado." },
  { word: "Celo", means: "El día o dos en que la cabra acepta al macho, cada tres semanas." },
  { word: "Consanguinidad", means: "La de una cría cuyos padres comparten antepasados. F dice cuánto." },
  { word: "Coronilla", means: "Lo alto de la cabeza entre las orejas, con su pelo." },
  { word: "Cría, parto", means: "Un animal joven, y todas las crías de un nacimiento." },
  { word: "Cuernito", means: "Un cuerno suelto o atrofiado." },
  { word: "Desbotonar", means: "Quitar los botones de una cría. Es cosa del veterinario, con alivio del dolor." },
  { word: "Fundador", means: "Un animal cuyos padres no constan." },
  { word: "Intersexual", means: "Con signos de ambos sexos. En cabras casi siempre de dos padres mochos." },
  { word: "Lectura", means: "Lo que una persona halló en la cabeza de una cría en un momento." },
  { word: "Mamellas", means: "Dos colgajos de piel en la garganta. También se heredan." },
  { word: "Mocho", means: "Sin cuernos de nacimiento." },
  { word: "Monta", means: "Apareamiento: a mano, en corral o por inseminación." },
  { word: "Plazo", means: "Las edades a las que su veterinario quita botones." },
  { word: "Portador", means: "No muestra un gen pero lo transmite. Los Pp portan cuernos." },
  { word: "Rebrote", means: "Lo que vuelve a crecer donde se quitó un botón." },
  { word: "Remolino", means: "Pelo que gira alrededor de un punto." },
];

/** Cómo se llama una fuente impresa; lo que no es un texto se dice claro. */
export const sourceNames: Readonly<Record<string, string>> = {
  "common-practice": "Práctica de criadores; no se conoce estudio",
  judgement: "Nuestro juicio",
  ricordeau1967: "Ricordeau y otros 1967",
  ricordeau1972: "Ricordeau 1972",
  pailhoux2005: "Pailhoux y otros 2005",
  "hancock-louca1975": "Hancock y Louca 1975",
  lauvergne1969: "Lauvergne 1969",
  vaiman1997: "Vaiman y otros 1997",
  "krausslich-brem1997": "Kräußlich y Brem 1997, citado",
  "asdell-crew1925": "Asdell y Crew 1925",
  "avma-disbudding": "American Veterinary Medical Association, norma",
  ava2022: "Australian Veterinary Association 2022, norma",
  hempstead2019: "Hempstead y otros 2019",
  "shearer-plummer": "Shearer y Plummer, Iowa State University",
  "msu-p3879": "Mississippi State University Extension P3879",
  wagmann2018: "Wagmann y otros 2018",
  "parturition-dystocia": "Texto docente sobre partos difíciles",
  "coventry-dalgleish-2015": "Coventry y Dalgleish 2015",
};

export const helpWords = {
  title: "Ayuda",
  intro: "Toda está en este aparato.",
  terms: "Palabras del oficio",
  find: "Buscar una palabra",
  none: "Aquí no está esa palabra.",
  from: "De",
  more: "Más ayuda",
  caution: "Pollard no es veterinario. Si difieren, tiene razón su veterinario.",
} as const;
