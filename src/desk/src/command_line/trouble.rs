//! What went wrong: as a value, told once, as a sentence or as data.

use std::io::{self, Write};

use baywright_files::FileFault;
use baywright_planner::model::fault::{Allowed, Fault, FileTrouble, Found, Why, Wrong};
use baywright_planner::words::Language;

use crate::command_line::json::write_troubles;
use crate::command_line::kind::{About, Kind};
use crate::command_line::misread::Misread;
use crate::command_line::page::{Page, Paper};
use crate::window::NoWindow;

/// One thing that went wrong.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Trouble {
    /// With a file.
    File(FileFault),
    /// With a folder of cars that goes before the place where they were found: the answer is given without it.
    PassedOver(FileFault),
    /// The command line cannot be read.
    Misread(Misread),
    /// A file has no arrangement of the name that was asked for.
    NoSuchArrangement {
        /// The file, as it was named.
        file: String,
        /// What was asked for.
        name: String,
        /// Those that are there.
        there: Vec<String>,
        /// The one that was probably meant.
        meant: Option<String>,
    },
    /// There is no car of the name that was asked for.
    NoSuchCar {
        /// What was asked for.
        name: String,
        /// Those that are there.
        there: Vec<String>,
        /// The one that was probably meant.
        meant: Option<String>,
    },
    /// A car has no aiming.
    NoAimings(String),
    /// A file has no arrangement at all.
    NothingToAnswer(String),
    /// The demo has none.
    NothingToShow(String),
    /// A picture's name that does not end as it should.
    NoPicture(String),
    /// A sheet's name that does not end as it should.
    NoSheet(String),
    /// A folder without layouts.
    NoLayouts(String),
    /// More layouts than this are too many at once.
    TooManyLayouts(usize),
    /// Standard output takes one file, and these would be so many.
    SeveralToOutput(usize),
    /// Standard output is a terminal, which takes text only.
    ToTerminal,
    /// Layouts of which there are no sheets, and of how many.
    Failed(Vec<String>, usize),
    /// A picture of so many pixels across and down, and as many as it may have.
    TooManyPixels([u64; 3]),
    /// The side view was asked for in a file that holds the plan.
    NoSideInDxf(String),
    /// A table's name that does not end as it should.
    NoTable(String),
    /// A layout's name that does not end as it should.
    NoLayout(String),
    /// Pages that could not be made: the writer's words.
    NoPages(String),
    /// A layout that cannot be shown.
    CannotBeJudged(String),
    /// There is no window.
    NoWindow(NoWindow),
    /// Standard output did not take the answer: the system's words.
    NotPrinted(String),
}

impl Trouble {
    /// It as a sentence.
    pub(crate) fn sentence(&self, language: Language) -> String {
        let texts = language.command_line();
        match self {
            Self::File(fault) => language.file_fault(fault),
            Self::PassedOver(fault) => texts.passed_over(&language.file_fault(fault)),
            Self::Misread(misread) => misread.text.clone(),
            Self::NoSuchArrangement { file, name, there, meant } => {
                let there: Vec<&str> = there.iter().map(String::as_str).collect();
                texts.no_such_arrangement(file, name, &there, meant.as_deref())
            }
            Self::NoSuchCar { name, there, meant } => {
                let there: Vec<&str> = there.iter().map(String::as_str).collect();
                language.plan().no_such_car(name, &there, meant.as_deref())
            }
            Self::NoAimings(car) => language.plan().no_aimings(car),
            Self::NothingToAnswer(file) => texts.nothing_to_answer(file),
            Self::NothingToShow(file) => texts.nothing_to_show(file),
            Self::NoPicture(file) => texts.no_picture(file),
            Self::NoSheet(file) => language.sheet_command().no_sheet(file),
            Self::NoLayouts(folder) => language.sheet_command().no_layouts(folder),
            Self::TooManyLayouts(most) => language.sheet_command().too_many_layouts(*most),
            Self::SeveralToOutput(files) => language.sheet_command().several_to_output(*files),
            Self::ToTerminal => language.sheet_command().to_terminal(),
            Self::Failed(files, all) => language.sheet_command().failed(files, *all),
            Self::TooManyPixels([width, height, most]) => {
                language.sheet_command().too_many_pixels(*width, *height, *most)
            }
            Self::NoSideInDxf(file) => texts.no_side_in_dxf(file),
            Self::NoTable(file) => texts.no_table(file),
            Self::NoLayout(file) => texts.no_layout(file),
            Self::NoPages(why) => texts.no_pages(why),
            Self::CannotBeJudged(file) => texts.cannot_be_judged(file),
            Self::NoWindow(why) => texts.no_window(&why.said(texts)),
            Self::NotPrinted(why) => texts.not_written(why),
        }
    }

    /// What kind of thing it is.
    pub(crate) fn kind(&self) -> Kind {
        match self {
            Self::File(fault) | Self::PassedOver(fault) => match &*fault.wrong {
                Wrong::Inside(fault) => kind_inside(fault),
                Wrong::Whole(trouble) => kind_of_file(trouble),
            },
            Self::Misread(misread) => misread.kind,
            Self::NoSuchArrangement { .. } | Self::NothingToAnswer(_) | Self::NothingToShow(_) => {
                Kind::NoArrangement
            }
            Self::NoSuchCar { .. } => Kind::UnknownName,
            Self::NoAimings(_) => Kind::NoArrangement,
            Self::NoLayouts(_) => Kind::NoSuchFile,
            Self::Failed(..) => Kind::CannotRead,
            Self::TooManyPixels(_) | Self::TooManyLayouts(_) => Kind::OutOfRange,
            Self::NoPicture(_)
            | Self::NoSheet(_)
            | Self::SeveralToOutput(_)
            | Self::ToTerminal
            | Self::NoSideInDxf(_)
            | Self::NoTable(_)
            | Self::NoLayout(_) => Kind::WrongArgument,
            Self::CannotBeJudged(_) => Kind::CannotBeJudged,
            Self::NoWindow(_) => Kind::NoWindow,
            Self::NoPages(_) | Self::NotPrinted(_) => Kind::CannotWrite,
        }
    }

    /// Where it is and what it is about.
    pub(crate) fn about(&self, language: Language) -> About {
        match self {
            Self::File(fault) | Self::PassedOver(fault) => about_file(fault, language),
            Self::Misread(misread) => misread.about.clone(),
            Self::NoSuchArrangement { file, name, there, meant } => About {
                file: Some(file.clone()),
                found: Some(name.clone()),
                allowed: Some(language.command_line().one_of(there)).filter(|names| !names.is_empty()),
                meant: meant.clone(),
                ..About::default()
            },
            Self::NoSuchCar { name, there, meant } => About {
                found: Some(name.clone()),
                allowed: Some(language.command_line().one_of(there)).filter(|names| !names.is_empty()),
                meant: meant.clone(),
                ..About::default()
            },
            Self::NoAimings(car) => About { found: Some(car.clone()), ..About::default() },
            Self::NothingToAnswer(file)
            | Self::NothingToShow(file)
            | Self::NoPicture(file)
            | Self::NoSheet(file)
            | Self::NoLayouts(file)
            | Self::NoSideInDxf(file)
            | Self::NoTable(file)
            | Self::NoLayout(file)
            | Self::CannotBeJudged(file) => About { file: Some(file.clone()), ..About::default() },
            Self::Failed(files, _) => About { found: Some(files.join(", ")), ..About::default() },
            Self::TooManyPixels(_)
            | Self::TooManyLayouts(_)
            | Self::SeveralToOutput(_)
            | Self::ToTerminal
            | Self::NoPages(_)
            | Self::NoWindow(_)
            | Self::NotPrinted(_) => About::default(),
        }
    }
}

fn about_file(fault: &FileFault, language: Language) -> About {
    let about = About {
        file: Some(fault.file.clone()),
        line: fault.line,
        column: fault.column,
        field: fault.field().map(ToOwned::to_owned),
        ..About::default()
    };
    match &*fault.wrong {
        Wrong::Inside(fault) => About {
            found: Some(language.found(fault)),
            allowed: Some(language.allowed(&fault.allowed)),
            meant: match &fault.allowed {
                Allowed::OneOf(choice) => choice.meant.as_ref().map(ToString::to_string),
                Allowed::Field(_, meant) | Allowed::Kind(_, meant) => meant.map(ToOwned::to_owned),
                _ => None,
            },
            ..about
        },
        Wrong::Whole(FileTrouble::NotRead { built_in: Some(choice), .. }) => {
            About { meant: choice.meant.as_ref().map(ToString::to_string), ..about }
        }
        Wrong::Whole(_) => about,
    }
}

fn kind_of_file(trouble: &FileTrouble) -> Kind {
    use FileTrouble as T;
    match trouble {
        T::NotRead { why: Why::NotThere, .. } => Kind::NoSuchFile,
        T::NotRead { .. } | T::IsFolder(_) | T::NoPlainFile(_) | T::TooLarge { .. } => Kind::CannotRead,
        T::NoText(..) | T::ControlCharacter(_) | T::Empty(_) => Kind::NoText,
        T::OtherKind { .. } => Kind::OtherFile,
        T::More(_) => Kind::More,
        T::NameIsNoText => Kind::UnknownName,
        T::PictureKind(_)
        | T::TooManyPixels { .. }
        | T::PictureManner
        | T::PictureMemory
        | T::PictureDamaged => Kind::Picture,
        T::NoAttachment => Kind::OtherFile,
        T::Drawing(_) => Kind::Drawing,
        T::NotWritten(_)
        | T::FolderInItsPlace
        | T::NoPlainFileInItsPlace
        | T::Protected
        | T::LinkToOtherKind(_)
        | T::IsInput
        | T::NotInText
        | T::NoHome
        | T::FullOfCopies
        | T::NotHeld(_)
        | T::NotKept(_) => Kind::CannotWrite,
        T::NoArrangement => Kind::NoArrangement,
        T::CannotBeJudged => Kind::CannotBeJudged,
    }
}

fn kind_inside(fault: &Fault) -> Kind {
    use Found as F;
    match &fault.found {
        F::NoField(_) | F::NeededBy(_) => Kind::MissingField,
        F::FieldNamed(_) => Kind::UnknownField,
        F::FieldTwice(_) | F::Again(_) | F::TakenInBay(_) | F::KindAgain => Kind::Twice,
        F::NoVersion | F::Version(_) | F::NewerVersion(_) | F::VersionNamed(_) => Kind::Version,
        _ if matches!(fault.allowed, Allowed::Syntax(_)) => Kind::Syntax,
        F::TextToLine(_) | F::WithComma(_) | F::Written(_) | F::EndOfFile | F::TooDeep | F::Text(_) => {
            Kind::Syntax
        }
        F::Number(..) | F::Whole(_) | F::Point(_) | F::OutsideBody(_) => Kind::OutOfRange,
        F::Count(..) | F::WallsForCorners { .. } | F::EmptyList | F::NoPlacement | F::NoLevel => Kind::Count,
        F::Position(..)
        | F::LaterMark(_)
        | F::Word(_)
        | F::NoProfile(_)
        | F::NotAsInProfile(_)
        | F::Name(_) => Kind::UnknownName,
        F::EmptyText
        | F::Saying(_)
        | F::TextOf(_)
        | F::ControlCharacter
        | F::HiddenCharacter(_)
        | F::NothingSeen
        | F::BlankAtEnds(_) => Kind::Text,
        F::RoomOf(_)
        | F::AreaOf(_)
        | F::ShapeOf(_)
        | F::NoPlace
        | F::CornerTwice
        | F::EdgesMeet { .. }
        | F::NoArea
        | F::HoleOutside(_)
        | F::HolesOverlap(..) => Kind::Shape,
        F::BottomAndTop { .. }
        | F::AlongWall { .. }
        | F::OpeningsOverlap(..)
        | F::OutlineReaches(_)
        | F::LengthAndParts { .. }
        | F::LengthAndSum { .. }
        | F::FrontSpots
        | F::StandingOnFloor
        | F::MatAtHeight
        | F::StandUnderMat => Kind::Misfit,
    }
}

/// Where it is told what went wrong: at once, a sentence each; or, as data, in one document at the end.
pub(crate) struct Errors<'a> {
    page: Page<'a>,
    language: Language,
    kept: Option<Vec<Trouble>>,
    passed_over: Vec<FileFault>,
}

impl<'a> Errors<'a> {
    /// Tells it on `out`, which is this paper.
    pub(crate) fn new(out: &'a mut dyn Write, paper: Paper, language: Language) -> Self {
        Self { page: Page::new(out, paper), language, kept: None, passed_over: Vec::new() }
    }

    /// From now on it is kept, and told as data at the end.
    pub(crate) fn as_data(&mut self) {
        self.kept.get_or_insert_default();
    }

    /// Tells that this went wrong. If not even that can be written, the exit status still says it.
    pub(crate) fn tell(&mut self, trouble: Trouble) {
        match &mut self.kept {
            Some(kept) => kept.push(trouble),
            None => {
                let _ = self.page.lines(&trouble.sentence(self.language));
            }
        }
    }

    /// Tells which folders of cars an answer is given without, each once however many files are answered for.
    pub(crate) fn tell_passed_over(&mut self, folders: &[FileFault]) {
        for own in folders {
            if !self.passed_over.contains(own) {
                self.passed_over.push(own.clone());
                self.tell(Trouble::PassedOver(own.clone()));
            }
        }
    }

    /// Tells how far something is, where what goes wrong is told as sentences.
    pub(crate) fn so_far(&mut self, text: &str) {
        if self.kept.is_none() {
            let _ = self.page.lines(text);
        }
    }

    /// The same to a terminal alone: whoever waits there sees that it goes on, and no file fills with it.
    pub(crate) fn so_far_on_terminal(&mut self, text: &str) {
        if self.page.width().is_some() {
            self.so_far(text);
        }
    }

    /// The end: what was kept is told.
    pub(crate) fn end(mut self) {
        if let Some(kept) = &self.kept {
            let told: io::Result<()> = write_troubles(kept, self.language, &mut self.page);
            // As with a sentence that cannot be written.
            let _ = told;
        }
    }
}
