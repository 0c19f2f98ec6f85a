//! Bay layouts, vehicle profiles, records of visits, shop settings, trigger lists, pictures and drawings of other programs on disk: the only crate that touches it.
//!
//! Files are RON with units in the field names (`wheelbase_mm`, `heading_deg`), read into structs of their own, then
//! turned into the planner's model and validated. Nothing is guessed or repaired: what is wrong is reported as
//! [`FileFault`]s: file, line, column, field, what was found and what is allowed as values, of which the planner's words
//! make one sentence. Saving is atomic, and what was saved reads back as it was.

mod aiming;
mod disk_mark;
mod dxf;
mod embedded;
mod explain;
mod fault;
mod figure;
mod fingerprint;
mod folder;
mod gate;
mod in_use;
mod instrument;
mod journal;
mod kind;
mod layout;
mod levels;
mod library;
mod log;
mod never;
mod open;
mod open_profile;
mod output;
mod parse;
mod picture;
mod places;
mod profile;
mod record;
mod remembered;
mod same;
mod save;
mod shape;
mod shop;
mod slip;
mod source;
mod spot;
mod text;
mod triggers;
mod version;
mod whole;

pub use baywright_planner::model::fault::FileFault;
pub use disk_mark::DiskMark;
pub use dxf::{
    ClosedGap, DxfBay, DxfChoice, DxfDrawing, DxfLayer, DxfLine, DxfNames, DxfUnit, LARGEST_DXF, NotRead,
    parse_dxf, read_dxf,
};
pub use embedded::{Embedded, LAYOUTS as EMBEDDED_LAYOUTS, PROFILES as EMBEDDED_PROFILES};
pub use fingerprint::fingerprint;
pub use folder::{MOST_LAYOUTS, layouts_of_folder, make_folder};
pub use in_use::{Held, Hold, hold};
pub use journal::{Journal, LeftBehind, Leftovers, Record, Since, Work, left_behind};
pub use kind::kind_of;
pub use layout::{things_of, things_text};
pub use levels::read_levels;
pub use library::Library;
pub use log::LogFile;
pub use never::{load_never, never_text, parse_never};
pub use open::{Loaded, Resolved, load_layout, open, open_from, open_in_part, parse_layout, resolve};
pub use open_profile::{Profile, load_profile, parse_draft, parse_profile};
pub use output::{fresh_folder, may_be_output, write_output};
pub use picture::{
    LARGEST_PICTURE_FILE, MOST_PX, MOST_PX_A_SIDE, MOST_PX_SHOWN, Picture, decode_picture, read_picture,
};
pub use places::{
    documents_folder, free_beside, is_taken, layouts_in, may_be_layout, meant, whole_path, zone_is_plain,
};
pub use record::{
    Kept, LARGEST_ATTACHMENT, LostAttachment, RECORD_ENDING, RecordChain, attach, attached_path,
    free_record_path, load_record, lost_attachments, parse_record, read_attached, record_chain, record_json,
    record_text, records_in, save_record, shown_attachments,
};
pub use remembered::{
    KeptLanguage, KeptLook, KeptPaper, KeptUnits, KeptWindow, LastOpen, MOST_RECENT, Remembered, WINDOW_FILE,
    remember, remembered,
};
pub use save::{
    Saved, draft_text, layout_text, profile_text, save_aside, save_layout, save_new_profile, save_profile,
    save_shop, save_triggers, shop_text, triggers_text,
};
pub use shop::{SHOP_FILE, ShopInUse, load_shop, parse_shop, shop_in_use};
pub use text::LARGEST_FILE;
pub use triggers::{TRIGGERS_FILE, load_triggers, parse_triggers, triggers};
pub use version::{
    LAYOUT as LAYOUT_VERSION, PROFILE as PROFILE_VERSION, RECORD as RECORD_VERSION, SHOP as SHOP_VERSION,
    TRIGGERS as TRIGGERS_VERSION,
};
pub use whole::write_whole;
