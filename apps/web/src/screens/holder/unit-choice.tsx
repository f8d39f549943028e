import { WEIGHT_UNITS, type WeightUnit } from "@pollard/base";
import { useScreens } from "../../house/use-house.tsx";
import { Answers } from "../../parts/answers/answers.tsx";

/** In what this phone takes and shows weights; takes effect at once, and changes nothing that was weighed. */
export function UnitChoice(props: { readonly unit: WeightUnit; readonly onUnit: (unit: WeightUnit) => void }) {
  const s = useScreens();
  return (
    <Answers
      name="units"
      legend={s.holder.units}
      value={props.unit}
      onAnswer={props.onUnit}
      choices={WEIGHT_UNITS.map((unit) => ({ value: unit, label: s.holder.unit[unit] }))}
    />
  );
}
