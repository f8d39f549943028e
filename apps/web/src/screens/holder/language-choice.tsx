import { LANGUAGE_NAMES, LANGUAGES, type Language } from "@pollard/words";
import { useScreens } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";

/** Which language this phone speaks. Each is called what its own speakers call it; takes effect at once. */
export function LanguageChoice(props: {
  readonly language: Language;
  readonly onLanguage: (language: Language) => Promise<void>;
}) {
  const s = useScreens();
  return (
    <Answers
      name="language"
      legend={s.holder.language}
      value={props.language}
      onAnswer={(language) => void props.onLanguage(language)}
      choices={LANGUAGES.map((language) => ({
        value: language,
        label: LANGUAGE_NAMES[language],
        language,
      }))}
    />
  );
}
