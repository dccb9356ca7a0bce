/** What becomes of given files: a scene is opened; meshes and pictures alone are set into the piece that is open. */
import { addFigure, addPlane } from '../../core/scene/edit/place.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { messageOf } from '../../files/fail.ts';
import { isMesh, isPicture, isScene } from '../../store/piece-files.ts';
import type { GivenBlob } from '../../store/piece-state.ts';
import { readPicture } from '../card/art-picture.ts';
import { landingOf, planeLandingOf } from '../compose/landing.ts';
import { usePieceStore } from '../shared/piece.ts';
import type { Given } from './gathered.ts';

/** Of the mold's length: how wide a picture is set in that states no size. */
const PICTURE_SHARE = 0.6;

/** Opens or adds; problems are told by the store. */
export function useTaking(): (given: Given | null) => void {
  const store = usePieceStore();
  const take = async (given: Given): Promise<void> => {
    const { openFiles, tellTrouble, document } = store.getState();
    let files: readonly GivenBlob[];
    try {
      files = await given.files();
    } catch (error) {
      tellTrouble(`${given.name} can’t be opened`, messageOf(error));
      return;
    }
    const parts = files.every(({ path }) => isMesh(path) || isPicture(path)) && files.length > 0;
    if (!parts || !document || files.some(({ path }) => isScene(path))) return openFiles(given.name, async () => files);
    for (const file of files) {
      const name = file.path.slice(file.path.lastIndexOf('/') + 1);
      try {
        if (isMesh(name)) await addMesh(name, file.blob);
        else await addPicture(name, file.blob);
      } catch (error) {
        // Who stopped it knows.
        if (!(error instanceof Error && error.name === 'AbortError')) tellTrouble(`${name} can’t be added`, messageOf(error));
        return;
      }
    }
  };
  const addMesh = async (name: string, blob: Blob): Promise<void> => {
    const path = await store.getState().addFile(name, blob);
    const sizeMm = await store.getState().sizeOfMesh(path);
    const { derived } = store.getState();
    add((file) => addFigure(file, { shape: { type: 'mesh', file: path }, name: name.replace(/\.[^.]*$/, ''), ...(derived && landingOf(file, derived, sizeMm)) }));
  };
  const addPicture = async (name: string, blob: Blob): Promise<void> => {
    const picture = await readPicture(new File([blob], name));
    const path = await store.getState().addFile(name, picture.blob);
    const { derived } = store.getState();
    add((file) => addPlane(file, { name: name.replace(/\.[^.]*$/, ''), ...(derived && planeLandingOf(file, derived)), art: { file: path, widthMm: picture.widthMm ?? PICTURE_SHARE * lengthOf(file) } }));
  };
  const add = (place: (file: SceneFile) => ReturnType<typeof addFigure>): void => {
    let ids: readonly string[] = [];
    const added = store.getState().edit((file) => {
      const result = place(file);
      if (result.ok) ids = result.ids;
      return result;
    });
    if (added) store.getState().select(ids);
    else throw new Error(store.getState().refusal ?? 'It does not fit into this piece.');
  };
  return (given) => void (given && take(given));
}

const lengthOf = ({ mold }: SceneFile): number => (mold.shape === 'box' ? mold.lengthMm : mold.diameterMm);
