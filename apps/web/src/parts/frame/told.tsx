import type { ReactNode } from "react";

/** A sentence that appears by itself and is read out where it appears, without taking the focus. */
export const Told = (props: { readonly children: ReactNode; readonly id?: string; readonly className?: string }) => (
  <output id={props.id} className={props.className ?? "told"}>
    {props.children}
  </output>
);
