import { useEffect, useState, useSyncExternalStore } from "react";
import { useGround, useScreens } from "../../house/use-house.tsx";

/** A picture by its name, from this phone; where it is not here yet, that is said, and it comes by itself. */
export function Photo(props: { readonly id: string; readonly alt: string }) {
  const s = useScreens();
  const { house } = useGround();
  const [shown, setShown] = useState<{ readonly address: string | undefined }>();
  const version = useSyncExternalStore(house.onChange, () => house.version);
  const isHere = shown?.address !== undefined;
  const look = isHere ? 0 : version;
  useEffect(() => {
    let wanted = true;
    void house.photos.find(props.id).then((found) => {
      if (!wanted) return;
      const bytes = found.ok ? found.value?.bytes : undefined;
      if (bytes === undefined) setShown({ address: undefined });
      else setShown((before) => (before?.address === undefined ? { address: addressOf(bytes) } : before));
    });
    return () => {
      wanted = false;
    };
  }, [house, props.id, look]);
  const address = shown?.address;
  useEffect(() => () => (address === undefined ? undefined : URL.revokeObjectURL(address)), [address]);
  if (shown === undefined) return null;
  if (address === undefined) return <p className="quiet">{s.photo.elsewhere}</p>;
  return <img className="photo-shown" src={address} alt={props.alt} />;
}

/** A browser tells the kinds of pictures apart by itself. */
const addressOf = (bytes: Uint8Array<ArrayBuffer>): string => URL.createObjectURL(new Blob([bytes]));
