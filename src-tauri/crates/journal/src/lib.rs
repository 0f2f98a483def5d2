//! The journal: entries, their merge, the folder of plain JSON files, watching it, photos.
