//! Texts of the command that makes sheets.

texts! {
    sheet_command: SheetCommand, "Every fixed text of the command that makes sheets.";
    sheet, "The command.";
    layouts, "Files, or folders of them.";
    arrangement, "A choice.";
    kinds, "A choice: which sheets.";
    before, "A choice: what findings are told beside.";
    paper, "A choice.";
    landscape, "A flag.";
    output, "A file, or a folder.";
    format, "A choice: what a folder of layouts becomes.";
    dpi, "A number.";
    revision, "A text.";
    a_sheet, "What stands for the sheet's file.";
    a_number, "What stands for a number.";
    a_text, "What stands for a text.";
    no_dpi, "What is wrong with a resolution, within a sentence.";
}

impl SheetCommand {
    sentences! { sheet_command:
        /// A file's name that does not end as it should.
        no_sheet(file: &str) -> String;
        /// A folder without layouts.
        no_layouts(folder: &str) -> String;
        /// How far a folder is: so many of so many, this one just now.
        so_far(done: usize, all: usize, file: &str) -> String;
        /// Those of a folder of which there are no sheets.
        failed(files: &[String], all: usize) -> String;
        /// More layouts than are made sheets of at once.
        too_many_layouts(most: usize) -> String;
        /// Sheets for standard output that would be several files.
        several_to_output(files: usize) -> String;
        /// Sheets for standard output, which is a terminal.
        to_terminal() -> String;
        /// A picture that would have too many pixels.
        too_many_pixels(width: u64, height: u64, most: u64) -> String;
    }
}
