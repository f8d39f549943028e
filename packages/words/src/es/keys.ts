/** Palabras de la página que enumera las teclas. */
export const keysWords = {
  title: "Teclas",
  link: "Teclas y atajos",
  single: "¿Las teclas sueltas hacen algo?",
  answers: { on: "Sí", off: "No, apáguelas" },
  kept: "Se guarda en este aparato. Dentro de la genealogía y la tabla siempre funcionan.",
  anywhere: "En cualquier lugar",
  singleKeys: [
    { key: "/", does: "Buscar entre los animales" },
    { key: "?", does: "Esta página" },
  ],
  elsewhere: "En otros lugares",
  lines: [
    "El tabulador lleva a lo siguiente; con Mayúsculas, a lo anterior.",
    "Las flechas van de respuesta en respuesta; la barra espaciadora elige una.",
    "En la tabla de parejas las flechas mueven e Intro abre.",
  ],
} as const;
