/** Palabras de dos crías lado a lado, y de dos lectores de una cabeza. */
export const compareWords = {
  title: "Lado a lado",
  of: (one: string, other: string) => `${one} y ${other}`,
  choose: "¿Qué dos?",
  chooseHow: "¿Cuál de sus hermanas de parto?",
  alone: "Esta cría no tiene hermana de parto para comparar.",
  notFound: "Aún sin mirar",
  hidden: "Oculto por ahora",
  seen: (age: string, by: string) => `${age}, ${by}`,
  notRead: "Nadie ha leído aún esta cabeza.",
  advice: "Qué hacer",
  belief: "A favor de cuernos",
  open: "Su página",
  apartTitle: "Dos lectores, dos hallazgos",
  apart: "Hallaron cosas distintas. Ambas cuentan; nadie se equivoca por decirlo.",
  apartDo: "Miren juntos, o una vez más mañana.",
  more: "Más de esta cría",
  link: "Junto a su hermana de parto",
} as const;

/** Palabras para un segundo lector, que no debe ver nada del primero antes de guardar su lectura. */
export const blindWords = {
  title: "¿Mirar primero por su cuenta?",
  readBy: (names: string) => `${names} ha leído esta cabeza. Lo hallado está oculto aquí.`,
  readByMany: (names: string) => `${names} han leído esta cabeza. Lo hallado está oculto aquí.`,
  why: "Dos pares de ojos dicen más si ninguno sabe la respuesta del otro.",
  read: "Leerla yo",
  show: "Mostrarme la respuesta",
  underWay: "Su lectura de esta cabeza no está terminada.",
  underWayWhy: "La respuesta llega cuando esté guardada.",
  carryOn: "Seguir leyendo",
} as const;
