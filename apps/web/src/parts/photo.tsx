import { useEffect, useState } from "react";
import { useGround, useScreens } from "../house/use-house.tsx";

/** A picture by its name, from this phone; where it is not here, that is said. */
export function Photo(props: { readonly id: string; readonly alt: string }) {
  const s = useScreens();
  const { house } = useGround();
  const [shown, setShown] = useState<{ readonly address: string | undefined }>();
  useEffect(() => {
    let address: string | undefined;
    let wanted = true;
    void house.photos.find(props.id).then((found) => {
      if (!wanted) return;
      const bytes = found.ok ? found.value?.bytes : undefined;
      address = bytes === undefined ? undefined : URL.createObjectURL(new Blob([bytes], { type: "image/jpeg" }));
      setShown({ address });
    });
    return () => {
      wanted = false;
      if (address !== undefined) URL.revokeObjectURL(address);
    };
  }, [house, props.id]);
  if (shown === undefined) return null;
  if (shown.address === undefined) return <p className="quiet">{s.photo.elsewhere}</p>;
  return <img className="photo-shown" src={shown.address} alt={props.alt} />;
}
