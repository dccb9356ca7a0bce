/** How much a file may ask of us. Each limit is far above honest use and low enough for a browser tab. */

const KIB = 1024;
const MIB = 1024 * KIB;

/** A mesh file. A binary STL of this size holds 10.7 million triangles, far past what any printer resolves. */
export const MAX_MESH_BYTES = 512 * MIB;
/** Triangles of one mesh. At 12 million a soup's doubles and indices take 1 GB, which a tab still gets. */
export const MAX_TRIANGLES = 12_000_000;
/** Vertices of one mesh: a soup's three a triangle. */
export const MAX_VERTICES = 3 * MAX_TRIANGLES;
/** mm (1,000 km). Beyond it a double no longer tells micrometers apart across a figure. */
export const MAX_COORDINATE_MM = 1e9;
/** Times that parts of one file are placed in it; a file of a kilobyte can ask for 2^1000. */
export const MAX_INSTANCES = 100_000;
/** Nodes or components inside each other; real assemblies have fewer than ten levels. */
export const MAX_NESTING = 100;
/** Corners of one concave face; cutting it takes their square, 4 seconds at this size. Convex faces may have any number. */
export const MAX_CONCAVE_CORNERS = 20_000;
/** Corner tests while cutting concave faces of one file into triangles: 3 to 10 seconds of work. */
export const MAX_CUTTING_STEPS = 3e8;
/** Pixels of all pictures that color one mesh: one of 8,192 × 8,192 or four of 4,096. Decoding takes 4 to 14 bytes for each. */
export const MAX_PICTURE_PIXELS = 2 ** 26;

/** Entries of a zip. */
export const MAX_ZIP_ENTRIES = 1000;
/** All entries of a zip together, unpacked. */
export const MAX_UNPACKED_BYTES = 1024 * MIB;
/** Unpacked over packed size of an entry. Text meshes reach 10 to 30; deflate's ceiling, which bombs use, is 1,032. */
export const MAX_PACKING_RATIO = 200;
/** An entry up to this size may be packed as tightly as it likes. */
export const FREELY_PACKED_BYTES = MIB;

/** The scene's own text. Ten thousand placements take about 4 MB. */
export const MAX_SCENE_BYTES = 8 * MIB;
/** A scene with its files, packed. */
export const MAX_BUNDLE_BYTES = MAX_UNPACKED_BYTES;
/** Brackets inside each other in JSON. A scene needs 6, glTF about 10. */
export const MAX_JSON_DEPTH = 100;
/** XML elements inside each other. 3MF needs 7. */
export const MAX_XML_DEPTH = 100;
/** Attributes of one XML element. 3MF needs at most 10. */
export const MAX_XML_ATTRIBUTES = 64;
