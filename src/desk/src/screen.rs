//! The screen: one window in which the three readers do their work.
//!
//! A frame: what the pointer and the keys did becomes commands; they are carried out; the answer is worked out; then
//! everything is drawn from it. So what is dragged, its findings and the verdict change in the same frame. Panels only
//! send commands; [`apply`] alone carries them out.

mod apply;
mod ask_files;
mod bar;
mod building;
mod canvas;
pub mod command;
mod copy_picture;
mod customer;
mod diagnostics;
mod dropped;
mod echoes;
mod findings;
mod fits;
mod floor;
mod foot;
pub mod forms;
mod hall;
mod in_sight;
mod in_turn;
mod keys;
mod list;
pub mod look;
mod lost;
mod marks;
mod menu;
mod menus;
pub mod of_record;
pub mod page;
mod pages;
mod parking;
pub mod raster;
pub mod record;
mod remember;
pub mod rescue;
mod room_drawing;
mod sheets;
pub mod shelf;
mod space;
mod stand;
mod taken_by;
mod turns;
mod underlay;
mod verdict;
pub mod view;
mod widgets;

use std::sync::Arc;

use baywright_drawing::Theme;
use baywright_files::{Held, KeptWindow, Leftovers, Remembered};
use baywright_planner::{Subject, cure, hand, words};
use egui::{Frame, Margin, Panel, Ui};

use crate::session::answer::{Answer, Assess, SlowPart};
use crate::session::document::Document;
use crate::session::job::{Job, Wake};
use crate::session::keeper::Keeper;
use crate::session::log::Log;
use crate::session::shop::{ShopSettings, ShopTrouble};
use crate::session::system_look::SystemLook;
use crate::session::verdicts::Verdicts;
use ask_files::AskFiles;
use canvas::Canvas;
use command::{Command, OfCar, OfView};
use view::Viewing;
pub use widgets::unbroken;

/// The whole screen and what it works on.
#[derive(Debug)]
pub struct Desk {
    document: Document,
    answer: Answer,
    view: Viewing,
    canvas: Canvas,
    verdicts: Verdicts,
    /// The best of all ways to make it ready.
    ways: SlowPart<cure::Further>,
    /// The picture that is made for the clipboard.
    copying: Job<egui::ColorImage>,
    files: AskFiles,
    log: Log,
    fields: forms::field::Fields,
    cards: findings::Cards,
    /// What was taped between the marks, and what it proves.
    proven: marks::Proven,
    /// What the floor's levels say.
    on_floor: floor::OnFloor,
    echoes: echoes::Echoes,
    /// Where the car can stand.
    parking: parking::Parking,
    /// What fits where.
    fits: fits::FitsPage,
    /// Lines that stay on the floor, as they are proposed.
    staying: parking::Staying,
    menus: menus::Menus,
    assess: Assess,
    /// What to do once it is saved.
    after_save: Option<Command>,
    /// What the colours were set for.
    themed: Option<(Theme, view::Letters)>,
    /// The card that is to come into sight.
    scroll_to: Option<usize>,
    /// Where cars, journals and copies after a fault go, if not into the program's own folder.
    home: Option<std::path::PathBuf>,
    quitting: bool,
    keeper: Keeper,
    shop: ShopSettings,
    /// Whether the day by which all is judged is the clock's.
    days_go_on: bool,
    compared: pages::Compared,
    /// Why a routine failed.
    weighed: pages::Weighed,
    /// What a customer is shown.
    told: customer::Told,
    /// What is printed.
    on_paper: sheets::OnPaperPage,
    /// The record of a visit.
    record: record::RecordPage,
    /// A drawing of another program on its way in.
    room_drawing: room_drawing::DrawingPage,
    underlay: underlay::Shown,
    /// The file that is open is held, so that a second window can tell.
    held: Option<Held>,
    /// What the next start begins with, as it was written last.
    remembered: Remembered,
    system_look: SystemLook,
    /// The window as it was when it filled no screen.
    window: Option<KeptWindow>,
    /// What earlier sessions left behind, until it is opened or thrown away.
    left_behind: Leftovers,
}

/// Below this width, px, the list of what is in the bay is folded away until it is asked for.
const NARROW_PX: f32 = 1000.0;
const LIST_PX: f32 = 216.0;
const FINDINGS_PX: f32 = 344.0;

impl Desk {
    /// A screen for a document; `None` if nothing can be said of it.
    pub fn new(document: Document) -> Option<Self> {
        Self::with(document, baywright_planner::assess)
    }

    /// The same with another way of working out the answer: for tests of what happens when it fails.
    pub fn with(document: Document, assess: Assess) -> Option<Self> {
        let answer = Answer::of(&document, assess)?;
        let mut desk = Self {
            document,
            answer,
            view: Viewing::default(),
            canvas: Canvas::default(),
            verdicts: Verdicts::default(),
            ways: SlowPart::default(),
            files: AskFiles::default(),
            copying: Job::default(),
            log: Log::default(),
            fields: forms::field::Fields::default(),
            cards: findings::Cards::default(),
            proven: marks::Proven::default(),
            on_floor: floor::OnFloor::default(),
            echoes: echoes::Echoes::default(),
            parking: parking::Parking::default(),
            fits: fits::FitsPage::default(),
            staying: parking::Staying::default(),
            menus: menus::Menus::default(),
            assess,
            after_save: None,
            themed: None,
            scroll_to: None,
            home: None,
            quitting: false,
            keeper: Keeper::default(),
            shop: ShopSettings::default(),
            days_go_on: false,
            compared: pages::Compared::default(),
            weighed: pages::Weighed::default(),
            told: customer::Told::default(),
            on_paper: sheets::OnPaperPage::default(),
            record: record::RecordPage::default(),
            room_drawing: room_drawing::DrawingPage::default(),
            underlay: underlay::Shown::default(),
            held: None,
            remembered: Remembered::default(),
            system_look: SystemLook::default(),
            window: None,
            left_behind: Leftovers::default(),
        };
        desk.say_shut();
        Some(desk)
    }

    /// The document.
    pub const fn document(&self) -> &Document {
        &self.document
    }

    /// The answer on the screen.
    pub const fn answer(&self) -> &Answer {
        &self.answer
    }

    /// What is seen and how.
    pub const fn view(&self) -> &Viewing {
        &self.view
    }

    /// The same, to set how it starts.
    pub const fn view_mut(&mut self) -> &mut Viewing {
        &mut self.view
    }

    /// Cars, journals and copies after a fault go into this folder instead of the program's own.
    pub fn live_in(&mut self, folder: std::path::PathBuf) {
        self.document.keep_cars_in(folder.join("vehicle-profiles"));
        self.set_shop(ShopSettings::open(Some(&folder.join(baywright_files::SHOP_FILE))));
        self.home = Some(folder);
    }

    /// Everything is judged by these settings of the shop, and they can be changed here.
    pub fn set_shop(&mut self, shop: ShopSettings) {
        self.shop = shop;
        self.judge_by_shop();
        self.answer.refresh(&self.document);
        if let Some(ShopTrouble::Unread(faults)) = self.shop.trouble() {
            let sentence = self.first_sentence(faults);
            self.say_wrong(sentence);
        }
    }

    /// The shop's settings.
    pub const fn shop(&self) -> &ShopSettings {
        &self.shop
    }

    /// Whether the day by which all is judged is the clock's and goes on with it, also in a window that is left open overnight.
    pub const fn let_days_go_on(&mut self, goes_on: bool) {
        self.days_go_on = goes_on;
    }

    fn go_on_with_the_day(&mut self) {
        let now = Some(crate::session::clock::now().date());
        if self.days_go_on && now != self.document.today() {
            self.document.judge_by(self.shop.judged_by(now));
            self.answer.refresh(&self.document);
        }
    }

    /// What the shop's settings say now holds for all that is open.
    fn judge_by_shop(&mut self) {
        self.document.judge_by(self.shop.judged_by(self.document.today()));
    }

    /// The program's own folder for what it keeps; `None` if the user has no home.
    pub(crate) fn data_folder(&self) -> Option<std::path::PathBuf> {
        self.home.clone().or_else(baywright_files::Library::data_folder)
    }

    /// What happens is kept in this file too.
    pub fn keep_log_in(&mut self, file: baywright_files::LogFile) {
        self.log.keep_in(file);
    }

    /// What happened.
    pub(crate) const fn log(&self) -> &Log {
        &self.log
    }

    /// The views that are seen, as drawn, and where their windows lie on the screen.
    pub fn drawings(&self) -> impl Iterator<Item = (&baywright_drawing::Drawing, egui::Rect)> {
        self.canvas.seen()
    }

    /// Once, before the first frame.
    pub fn install(ctx: &egui::Context) {
        look::install(ctx);
        ctx.add_plugin(in_turn::InTurn::default());
        ctx.add_plugin(space::SpaceBar::default());
    }

    /// Asks for something from outside, as the command line or a test does.
    pub fn ask(&mut self, ctx: &egui::Context, command: Command) {
        self.carry_out(ctx, vec![command]);
    }

    /// The texts of the screen.
    pub(crate) fn texts(&self) -> &'static words::screen::Screen {
        self.view.locale.language.screen()
    }

    /// How the lengths in a sentence about what is typed are written.
    pub(crate) const fn lengths(&self) -> words::Lengths {
        words::Lengths::Shown(self.view.locale)
    }

    /// Says everything in this language from now on, with numbers and days as they are written where it is spoken.
    pub const fn speak(&mut self, language: words::Language) {
        self.view.locale = words::Locale::of(language, self.view.locale.units);
    }

    /// How numbers and days are written.
    pub(crate) const fn region(&self) -> words::Region {
        self.view.locale.region
    }

    /// The window's title.
    pub fn title(&self) -> String {
        let changed = if self.document.is_changed() { "* " } else { "" };
        format!("{changed}{} \u{2013} Baywright", self.document.layout().bay.name)
    }

    /// After a fault: nothing of what was only seen is kept, all of the work is.
    pub(crate) fn start_over(&mut self) {
        self.view = self.view.anew();
        self.canvas = Canvas::default();
        self.fields = forms::field::Fields::default();
        self.cards = findings::Cards::default();
        self.answer.refresh(&self.document);
    }

    /// One frame.
    pub fn frame(&mut self, ui: &mut Ui) {
        let ctx = ui.ctx().clone();
        self.fields.next_frame();
        self.go_on_with_the_day();
        self.dress(&ctx);
        let mut commands = Vec::new();
        self.closing(&ctx, &mut commands);
        self.hear_jobs(&mut commands);
        self.look_further(&ctx);
        self.look_after(&ctx);
        self.follow_picture(&ctx);
        self.hear_copied(&ctx);
        self.hear_written();
        self.hear_drawing(&ctx);
        self.menus.before(&ctx);
        if let Some(&page::Page::Customer(at)) = self.view.page() {
            self.customer_keys(at, &keys::pressing(&ctx), &mut commands);
        }
        self.hear_record(&ctx, &mut commands);
        if self.is_recording() {
            self.record_listen(&ctx);
        }
        let things = self.answer.arrangement.own_things();
        let all: Vec<Subject> = things.map(|own| Subject::Thing(own.id.clone())).collect();
        let hand = (!self.canvas.is_dragging()).then(|| (all.as_slice(), self.canvas.pointer_in_bay(&ctx)));
        keys::listen(&ctx, &self.view, &self.document, &mut self.fields, hand, &mut commands);
        self.hear_dropped(&ctx, &mut commands);
        let mut by_hand = Vec::new();
        self.canvas.picture = self.picture_lies();
        self.canvas.listen(&ctx, &self.answer, &self.view, &mut by_hand);
        // What is typed is taken before the form it stands in goes: the hand waits until the panels are drawn.
        let takes_form_away = |asked: &Command| {
            let chooses = matches!(
                asked,
                Command::View(OfView::Select(_) | OfView::SelectToo(_) | OfView::SelectAll(_))
            );
            chooses || matches!(asked, Command::Bay(_))
        };
        // So is what asks for all of the work, by keys: to save it, to keep a car, to leave.
        let asks_for_all = |asked: &Command| {
            matches!(
                asked,
                Command::File(_) | Command::Quit | Command::Car(OfCar::Keep) | Command::Page(Some(_))
            )
        };
        let is_edited = self.fields.is_edited();
        let (after, mut commands): (Vec<_>, Vec<_>) = commands
            .into_iter()
            .partition(|asked| asks_for_all(asked) && (is_edited || *asked == Command::Car(OfCar::Keep)));
        if is_edited && (by_hand.iter().any(takes_form_away) || !after.is_empty()) {
            ctx.memory_mut(|memory| memory.focused().map(|field| memory.surrender_focus(field)));
        } else {
            commands.append(&mut by_hand);
        }
        self.carry_out(&ctx, commands);

        let mut commands = Vec::new();
        if self.tells_customer() {
            self.customer(ui, &mut commands);
        } else if self.is_on_paper() {
            self.sheets_page(ui, &mut commands);
        } else if self.is_drawing_in() {
            self.room_drawing_page(ui, &mut commands);
        } else if self.is_recording() {
            self.record_page(ui, &mut commands);
        } else if self.tells_fits() {
            self.fits_page(ui, &mut commands);
        } else {
            self.panels(ui, &mut commands);
        }
        self.menus.after(&ctx, look::colour(self.view.theme.palette().beam));
        commands.append(&mut by_hand);
        if let Some((typed, which)) = self.fields.unanswered() {
            commands.push(Command::Say(self.texts().not_answered(&typed, &which)));
        }
        self.scroll_to = None;
        self.settle_hover(&mut commands);
        if !commands.is_empty() {
            self.carry_out(&ctx, commands);
            ctx.request_repaint();
        }
        // Where what was typed is not taken its reason stands beside it, and nothing is saved or left without it.
        if !after.is_empty() && !self.fields.was_refused() {
            self.carry_out(&ctx, after);
            ctx.request_repaint();
        }
        self.fill_screen(&ctx);
        let leads = self.fields.is_leading() || (self.is_recording() && self.record.is_leading());
        in_turn::wait_for_keyboard(&ctx, leads);
        self.follow_window(&ctx);
        self.remember();
        self.keeper.follow(&self.document);
        self.keeper.follow_room(self.view.room_begun());
        self.keeper.follow_shop(&self.shop);
        self.keeper.follow_list(self.view.list_changed());
    }

    /// Whether a page lies there that takes the whole window.
    const fn fills_window(&self) -> bool {
        self.tells_customer()
            || self.is_on_paper()
            || self.is_drawing_in()
            || self.is_recording()
            || self.tells_fits()
    }

    /// Takes in what was worked out off the frame since the last one, and says what failed.
    fn hear_jobs(&mut self, commands: &mut Vec<Command>) {
        let answered = self.files.answered();
        let looked = [
            self.verdicts.collect(),
            self.ways.collect(),
            self.parking.collect(),
            self.echoes.collect(),
            self.fits.collect(),
            self.staying.collect(),
        ];
        let failed = looked.iter().map(|own| own.as_ref().err());
        for words in std::iter::once(answered.as_ref().err()).chain(failed).flatten() {
            self.say_wrong(self.texts().failed_beside(words));
        }
        commands.extend(answered.ok().flatten());
    }

    /// Has other ways to make it ready, and what takes echoes away, looked for while nothing is in the hand, and tells them as soon as they
    /// are known.
    fn look_further(&mut self, ctx: &egui::Context) {
        let is_wanted = cure::is_worth_looking(&self.answer.assessment) && !self.answer.stale;
        if !is_wanted || self.canvas.is_dragging() {
            return;
        }
        let wake = waking(ctx);
        self.answer.work_out(&mut self.ways, ("ways", 1), &wake, |of, said, _| cure::look_further(of, said));
        let best = self.answer.shown_of(&self.ways).filter(|shown| !shown.is_older);
        if let Some(best) = best.map(|shown| shown.found.clone()) {
            self.answer.take(best);
        }
    }

    /// What the pointer is over: the last row or card that said so, else what the canvas found, else nothing. Sent only if
    /// it changed, so that a resting pointer brings no further frames.
    fn settle_hover(&self, commands: &mut Vec<Command>) {
        let (mut told, mut lit) = (None, self.canvas.marker());
        commands.retain(|command| match command {
            Command::View(OfView::Hover(subject)) => {
                told = Some(subject.clone());
                false
            }
            Command::View(OfView::Light(finding)) => {
                lit = *finding;
                false
            }
            _ => true,
        });
        if lit != self.view.lit {
            commands.push(Command::View(OfView::Light(lit)));
        }
        let here = if self.canvas.is_under_pointer() { self.view.hovered.clone() } else { None };
        let now = told.unwrap_or(here);
        if now != self.view.hovered {
            commands.push(Command::View(OfView::Hover(now)));
        }
    }

    fn carry_out(&mut self, ctx: &egui::Context, commands: Vec<Command>) {
        // What was said before they were asked for need not hold any more; what they say themselves stays.
        self.forget_said(&commands);
        for command in commands {
            self.apply(ctx, command);
        }
        self.answer.refresh(&self.document);
        // What went is not in hand any more.
        let (arrangement, scene) = (&self.answer.arrangement, &self.answer.assessment.scene);
        self.view.also.retain(|own| hand::pose_of(arrangement, scene, own).is_some());
        let there = self.answer.assessment.findings.len();
        for at in [&mut self.view.pointed, &mut self.view.explained, &mut self.view.lit] {
            *at = at.filter(|&at| at < there);
        }
    }

    /// Colours, sizes, the window's title.
    fn dress(&mut self, ctx: &egui::Context) {
        if self.view.as_system
            && let Some(theme) = self.system_look(ctx)
        {
            self.view.theme = theme;
        }
        let wanted = (self.view.theme, self.view.letters);
        if self.themed != Some(wanted) {
            look::apply(ctx, self.view.theme);
            ctx.set_zoom_factor(self.view.letters.factor());
            self.themed = Some(wanted);
        }
    }

    /// The window is asked to close: work is not lost without a word.
    fn closing(&mut self, ctx: &egui::Context, commands: &mut Vec<Command>) {
        if !ctx.input(|i| i.viewport().close_requested()) || self.quitting {
            return;
        }
        let drafted = self.document.draft().is_some_and(crate::session::draft::Draft::is_changed);
        let begun = self.view.begun().is_some();
        let typing = self.fields.is_edited();
        if drafted || begun || typing || self.document.is_changed() || self.shop.is_changed() {
            ctx.send_viewport_cmd(egui::ViewportCommand::CancelClose);
            commands.push(Command::Quit);
        } else if !self.may_end_record() {
            ctx.send_viewport_cmd(egui::ViewportCommand::CancelClose);
        } else {
            self.end();
        }
    }

    fn panels(&mut self, ui: &mut Ui, out: &mut Vec<Command>) {
        self.look_where(ui.ctx());
        self.look_for_echoes(ui.ctx());
        let panel = look::colour(self.view.theme.palette().panel);
        let sheet = look::colour(self.view.theme.palette().sheet);
        let frame = |fill| Frame::new().fill(fill).inner_margin(Margin::symmetric(14, 6));
        let wide = ui.available_width() >= NARROW_PX;
        Panel::top("bar").frame(frame(panel)).show(ui, |ui| self.bar(ui, wide, out));
        Panel::top("verdict").frame(frame(sheet)).show(ui, |ui| self.verdict(ui, wide, out));
        Panel::bottom("foot").frame(frame(panel)).show(ui, |ui| self.foot(ui, out));
        if self.document.draft().is_some() {
            let frame =
                Frame::new().fill(panel).inner_margin(Margin { left: 10, right: 6, top: 8, bottom: 8 });
            let most = forms::car::FORM_PX.min(ui.available_width() * 0.55);
            Panel::left("car").frame(frame).resizable(false).exact_size(most).show(ui, |ui| {
                let all = ui.available_rect_before_wrap();
                let room = if wide { all } else { self.said_beside(ui) };
                let room = egui::UiBuilder::new().max_rect(room).id_salt("above what was said");
                ui.scope_builder(room, |ui| self.car_panel(ui, out));
            });
        } else if wide || self.view.list_open {
            let frame =
                Frame::new().fill(panel).inner_margin(Margin { left: 10, right: 6, top: 8, bottom: 8 });
            Panel::left("list")
                .frame(frame)
                .resizable(false)
                .exact_size(LIST_PX)
                .show(ui, |ui| self.list(ui, out));
        }
        // Where there is little room what is entered stands beside what it is drawn as; the answer's line stays.
        let told = wide || self.document.draft().is_none();
        let findings = if wide { FINDINGS_PX } else { FINDINGS_PX.min(ui.available_width() * 0.45) };
        let side = Frame::new().fill(panel).inner_margin(Margin { left: 12, right: 8, top: 8, bottom: 8 });
        if told {
            Panel::right("answer").frame(side).resizable(false).exact_size(findings).show(ui, |ui| {
                let room =
                    egui::UiBuilder::new().max_rect(self.said_beside(ui)).id_salt("above what was said");
                ui.scope_builder(room, |ui| self.answers(ui, out));
            });
        }
        egui::CentralPanel::default().frame(Frame::new()).show(ui, |ui| {
            let area = ui.max_rect();
            self.canvas.lay_out(area, &self.answer, &self.view);
            let mesh = self.canvas.top().and_then(|(drawing, rect)| self.picture_mesh(drawing, rect));
            self.canvas.underlay = mesh;
            self.canvas.show(ui, &self.answer, &self.view, out);
        });
        self.hand_menu(ui, out);
        self.pages(ui, out);
    }
}

/// How a job wakes the screen when it has news.
fn waking(ctx: &egui::Context) -> Wake {
    let ctx = ctx.clone();
    Arc::new(move || ctx.request_repaint())
}

/// What is taken in hand when a part of it is pointed at: the target stands on its stand, the sensor sits in the car.
pub(crate) fn whole(subject: Subject) -> Subject {
    match subject {
        Subject::Target(id) => Subject::Stand(id),
        Subject::Sensor => Subject::Car,
        other => other,
    }
}
