// The only file that knows Tauri. Everything else sees plain promises; a refusal is always an ErrorView.

/**
 * @typedef {import("./types.d.ts").AppView} AppView
 * @typedef {import("./types.d.ts").WarpForm} WarpForm
 * @typedef {import("./types.d.ts").SittingForm} SittingForm
 * @typedef {import("./types.d.ts").FinishForm} FinishForm
 * @typedef {import("./types.d.ts").RunningView} RunningView
 * @typedef {import("./types.d.ts").Understood} Understood
 * @typedef {import("./types.d.ts").ErrorView} ErrorView
 * @typedef {{ view: AppView, sitting: string, messages: string[] }} SavedSitting
 * @typedef {{ done: number, of: number }} RowsDone
 * @typedef {{ done: number, of: number | null }} FilesRead
 */

import { t } from "./messages.js";

// Tauri puts its functions on the page (`withGlobalTauri`). Its module for import is for bundlers, and there is none here. Without the
// global only Tauri's undocumented internals would remain, which any script on the page can call all the same: what protects the page is
// that only its own scripts run (`script-src 'self'`), that no other page is shown, and that only the commands of the capability answer.
const tauri = /** @type {any} */ (window).__TAURI__;

/**
 * @param {unknown} refusal
 * @returns {ErrorView}
 */
function asTrouble(refusal) {
  if (refusal && typeof refusal === "object" && "sentence" in refusal) {
    return /** @type {ErrorView} */ (refusal);
  }
  const message = typeof refusal === "string" ? refusal : refusal instanceof Error ? refusal.message : "";
  return { field: null, sentence: message || t("trouble_unknown") };
}

/**
 * @param {string} name
 * @param {Record<string, unknown> | Uint8Array} [args]
 * @param {{ headers: Record<string, string> }} [options]
 * @returns {Promise<any>}
 */
async function invoke(name, args, options) {
  try {
    return await tauri.core.invoke(name, args, options);
  } catch (refusal) {
    throw asTrouble(refusal);
  }
}

export const shell = {
  /** The texts of the interface. @returns {Promise<import("./message-types.d.ts").InterfaceMessages>} */
  interfaceMessages: () => invoke("interface_messages", { locale: navigator.language }),
  /** @returns {Promise<import("./types.d.ts").GuideContents>} */
  guideContents: () => invoke("guide_contents", { locale: navigator.language }),
  /** Nothing where there is no such page. @param {string} page @returns {Promise<import("./types.d.ts").GuidePage | null>} */
  guidePage: (page) => invoke("guide_page", { page, locale: navigator.language }),
  /** The bytes of a PNG picture. @param {string} name @returns {Promise<ArrayBuffer>} */
  guidePicture: (name) => invoke("guide_picture", { name }),
  /** @returns {Promise<AppView>} */
  view: () => invoke("view", { locale: navigator.language }),
  /** @returns {Promise<AppView>} */
  chooseFolder: () => invoke("choose_folder", {}),
  /** @param {string} path @param {boolean} create whether a missing folder is to be made @returns {Promise<AppView>} */
  openFolder: (path, create) => invoke("open_folder", { path, create }),
  /** Nothing is changed in the folder that is being read. @returns {Promise<void>} */
  stopReading: () => invoke("stop_reading", {}),
  /** @returns {Promise<AppView>} */
  openSample: () => invoke("open_sample", {}),
  /** @returns {Promise<AppView>} */
  closeFolder: () => invoke("close_folder", {}),
  /** @param {string} warp @returns {Promise<AppView>} */
  showWarp: (warp) => invoke("show_warp", { warp }),
  /** @param {WarpForm} form @returns {Promise<AppView>} */
  beginWarp: (form) => invoke("begin_warp", { form }),
  /**
   * The form is remembered; `from` is the kept plan it came from, or empty.
   * @param {import("./types.d.ts").PlanForm} form @param {string} from @returns {Promise<import("./types.d.ts").PlanView>}
   */
  calculatePlan: (form, from) => invoke("calculate_plan", { form, from }),
  /**
   * @param {import("./types.d.ts").PlanForm} form @param {string} from
   * @returns {Promise<{ view: AppView, record: string }>}
   */
  savePlan: (form, from) => invoke("save_plan", { form, from }),
  /** @returns {Promise<import("./types.d.ts").EarlierPlan[]>} */
  earlierPlans: () => invoke("earlier_plans", {}),
  /** @param {import("./types.d.ts").PlanForm} form @param {string} from @returns {Promise<AppView>} */
  beginPlannedWarp: (form, from) => invoke("begin_planned_warp", { form, from }),
  /** @param {string} warp @param {WarpForm} form @param {string[]} seen @returns {Promise<AppView>} */
  changeWarp: (warp, form, seen) => invoke("change_warp", { warp, form, seen }),
  /** @param {string} warp @param {string} state @returns {Promise<AppView>} */
  setWarpState: (warp, state) => invoke("set_warp_state", { warp, state }),
  /**
   * Writes a file; its path, or nothing when it was cancelled.
   * @param {{ what: string, warp: string | null, split: string, folder: string }} wanted @returns {Promise<string | null>}
   */
  export: (wanted) => invoke("export", wanted),
  /** The picture of how far a warp is, as SVG. @param {string} warp @returns {Promise<string>} */
  progressPicture: (warp) => invoke("progress_picture", { warp }),
  /** @param {Uint8Array} bytes @param {string} name @param {string} folder @returns {Promise<string | null>} */
  exportPicture: (bytes, name, folder) =>
    invoke("export_picture", bytes, {
      headers: { name: encodeURIComponent(name), folder: encodeURIComponent(folder) },
    }),
  /**
   * @param {import("./types.d.ts").ImportForm} form @param {(rows: RowsDone) => void} listener
   * @returns {Promise<import("./types.d.ts").ImportView>}
   */
  previewImport: (form, listener) => invoke("preview_import", { form, progress: new tauri.core.Channel(listener) }),
  /**
   * @param {import("./types.d.ts").ImportForm} form @param {(rows: RowsDone) => void} listener
   * @returns {Promise<{ view: AppView, import: import("./types.d.ts").ImportView }>}
   */
  import: (form, listener) => invoke("import", { form, progress: new tauri.core.Channel(listener) }),
  /** Nothing of what is being read is written. @returns {Promise<void>} */
  stopImport: () => invoke("stop_import", {}),
  /**
   * @param {{ split: string, within: string | null, width: number, text: number }} ask
   * @returns {Promise<import("./types.d.ts").PaceView>}
   */
  pace: (ask) => invoke("pace", ask),
  /** @param {string} warp @param {import("./types.d.ts").OffForm} form @param {string[]} seen @returns {Promise<AppView>} */
  cutOff: (warp, form, seen) => invoke("cut_off", { warp, form, seen }),
  /** @param {string} warp @param {string} step @param {string | null} on @returns {Promise<AppView>} */
  tickStep: (warp, step, on) => invoke("tick_step", { warp, step, on }),
  /** @param {string} warp @param {string} step @param {string} name @param {string} on @returns {Promise<AppView>} */
  changeStep: (warp, step, name, on) => invoke("change_step", { warp, step, name, on }),
  /** @param {string} warp @param {string} name @returns {Promise<AppView>} */
  addStep: (warp, name) => invoke("add_step", { warp, name }),
  /** @param {string} warp @param {string} step @returns {Promise<AppView>} */
  removeStep: (warp, step) => invoke("remove_step", { warp, step }),
  /** @param {string} record @returns {Promise<AppView>} */
  remove: (record) => invoke("remove", { record }),
  /** @param {string} record @returns {Promise<AppView>} */
  restore: (record) => invoke("restore", { record }),
  /** @param {1 | -1} by @returns {Promise<RunningView>} */
  tap: (by) => invoke("tap", { by }),
  /** @param {boolean} begun @returns {Promise<RunningView>} */
  setPickBegun: (begun) => invoke("set_pick_begun", { begun }),
  /** @param {boolean} paused @returns {Promise<RunningView>} */
  setPaused: (paused) => invoke("set_paused", { paused }),
  /** @param {string} warp @returns {Promise<import("./types.d.ts").Places | null>} */
  places: (warp) => invoke("places", { warp }),
  /** @param {string} warp @param {import("./types.d.ts").PlaceForm} form @returns {Promise<AppView>} */
  setPlace: (warp, form) => invoke("set_place", { warp, form }),
  /** @param {string} warp @param {import("./types.d.ts").ReadingForm} form @returns {Promise<{ view: AppView, messages: string[] }>} */
  addMeasurement: (warp, form) => invoke("add_measurement", { warp, form }),
  /** @param {string} warp @param {import("./types.d.ts").YarnForm} form @returns {Promise<AppView>} */
  addYarn: (warp, form) => invoke("add_yarn", { warp, form }),
  /** @param {string} yarn @param {import("./types.d.ts").YarnForm} form @param {string[]} seen @returns {Promise<AppView>} */
  changeYarn: (yarn, form, seen) => invoke("change_yarn", { yarn, form, seen }),
  /** @param {string} minutes @returns {Promise<AppView>} */
  setStretch: (minutes) => invoke("set_stretch", { minutes }),
  /** @param {import("./types.d.ts").PickSequenceForm} form @returns {Promise<import("./types.d.ts").PickSequenceView>} */
  drawSequence: (form) => invoke("draw_sequence", { form }),
  /**
   * Tape and picks side by side before a sitting is kept; no warp means the sitting that is going on.
   * @param {string} warp @param {SittingForm} form @param {string | null} sitting @returns {Promise<string[]>}
   */
  reconcile: (warp, form, sitting) => invoke("reconcile", { warp, form, sitting }),
  /** Whether the desktop keeps the screen awake; null where only the web view could. @returns {Promise<boolean | null>} */
  screenIsHeld: () => invoke("screen_is_held", {}),
  /** @returns {Promise<FinishForm>} */
  finishForm: () => invoke("finish_form", {}),
  /** @param {SittingForm} form @returns {Promise<SavedSitting>} */
  finishSitting: (form) => invoke("finish_sitting", { form }),
  /** @param {string} warp @param {SittingForm} form @returns {Promise<SavedSitting>} */
  logSitting: (warp, form) => invoke("log_sitting", { warp, form }),
  /** @param {string} sitting @param {SittingForm} form @param {string[]} seen @returns {Promise<AppView>} */
  correctSitting: (sitting, form, seen) => invoke("correct_sitting", { sitting, form, seen }),
  /** @param {string} sitting @param {File} file @returns {Promise<AppView>} */
  async addPhoto(sitting, file) {
    const bytes = new Uint8Array(await file.arrayBuffer());
    return invoke("add_photo", bytes, { headers: { sitting, name: encodeURIComponent(file.name) } });
  },
  /** @param {string} record @param {string} field @param {string} key @returns {Promise<AppView>} */
  resolve: (record, field, key) => invoke("resolve", { record, field, key }),
  /** The view and, if there is one, a message about what was undone. @returns {Promise<[AppView, string | null]>} */
  undo: () => invoke("undo", {}),
  /** @param {string} what @param {string} text @returns {Promise<Understood>} */
  interpret: (what, text) => invoke("interpret", { what, text }),
  /** @param {string} units @returns {Promise<AppView>} */
  setUnits: (units) => invoke("set_units", { units }),
  /** @param {string} units @returns {Promise<AppView>} */
  setWeights: (units) => invoke("set_weights", { units }),
  /** @param {string} name @returns {Promise<AppView>} */
  setDeviceName: (name) => invoke("set_device_name", { name }),
  /** @returns {Promise<AppView>} */
  writeBack: () => invoke("write_back", {}),
  markFolderAgain: () => invoke("mark_folder_again", {}),
  /** Calls back with a whole new view after every change. @param {(view: AppView) => void} listener @returns {Promise<void>} */
  onView: async (listener) => {
    await tauri.event.listen("view", (/** @type {{ payload: AppView }} */ event) => listener(event.payload));
  },
  /**
   * Calls back while a folder is read, if that takes long, and with nothing when it is over.
   * @param {(files: FilesRead | null) => void} listener @returns {Promise<void>}
   */
  onReading: async (listener) => {
    await tauri.event.listen("reading", (/** @type {{ payload: FilesRead | null }} */ event) =>
      listener(event.payload),
    );
  },
};
