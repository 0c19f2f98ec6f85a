//! Texts of the command line: what its help says, what it says when something cannot be done.

texts! {
    command_line: CommandLine, "Every fixed text of the command line.";
    // Help.
    program, "What the program is for.";
    check, "A command.";
    draw, "A command.";
    list_marks, "A command.";
    import, "A command.";
    open, "A command.";
    print_licences, "A command.";
    explain, "A command.";
    print_schema, "A command.";
    print_completions, "A command.";
    print_manual, "A command.";
    codes, "Codes of findings.";
    shell, "A shell.";
    command, "A command of the program.";
    layout, "A file.";
    layout_to_open, "A file.";
    layouts, "Files.";
    quiet, "A flag.";
    check_arrangement, "A choice.";
    draw_arrangement, "A choice.";
    units, "A choice.";
    in_language, "A choice.";
    shop, "A file.";
    date, "A day.";
    no_day, "What is wrong with a day, within a sentence.";
    json, "A flag.";
    json_of_draw, "A flag.";
    strict, "A flag.";
    marks, "A flag.";
    view, "A choice.";
    output, "A file.";
    output_of_marks, "A file.";
    format_of_marks, "A choice.";
    drawing, "A file.";
    room_layer, "A layer.";
    outline_number, "A number.";
    wall_layers, "Layers.";
    thing_layers, "Layers.";
    drawn_in_unit, "A choice.";
    gap, "A length.";
    wall_thickness, "A length.";
    ceiling, "A length.";
    vehicle, "A choice.";
    aiming, "A choice.";
    output_of_import, "A file.";
    no_length, "What is wrong with a length, within a sentence.";
    paper, "A choice.";
    dark, "A flag.";
    a_file, "What stands for a file.";
    a_name, "What stands for a name.";
    a_day, "What stands for a day.";
    a_code, "What stands for a finding's code.";
    a_shell, "What stands for a shell.";
    a_command, "What stands for a command.";
    a_picture, "What stands for the picture's file.";
    a_table, "What stands for a table's file.";
    a_drawing, "What stands for a drawing's file.";
    a_layout, "What stands for a layout's file.";
    a_layer, "What stands for a layer.";
    a_number, "What stands for a number.";
    a_length, "What stands for a length.";
    after, "Under the help of what answers.";

    // What comes through a pipe.
    standard_input, "Its name, in the place of a file's.";

    // No window.
    no_display, "Why there is none.";
    no_graphics, "What is missing.";

    // Licences.
    typeface, "Before the typeface's licence.";
    other_fonts, "Which other fonts there are.";
}

impl CommandLine {
    sentences! { command_line:
        /// A name that no arrangement has: those that are there, and the nearest one.
        no_such_arrangement(file: &str, name: &str, there: &[&str], meant: Option<&str>) -> String;
        /// Names, one of which is asked for.
        one_of(names: &[String]) -> String;
        /// A layout without arrangements.
        nothing_to_answer(file: &str) -> String;
        /// The demo without arrangements.
        nothing_to_show(file: &str) -> String;
        /// A picture's name that does not end as it should.
        no_picture(file: &str) -> String;
        /// The side view in a file that holds the plan.
        no_side_in_dxf(file: &str) -> String;
        /// A table's name that does not end as it should.
        no_table(file: &str) -> String;
        /// A layout's name that does not end as it should.
        no_layout(file: &str) -> String;
        /// Pages that the writer refuses.
        no_pages(why: &str) -> String;
        /// The terminal did not take it.
        not_written(why: &str) -> String;
        /// A layout that cannot be shown.
        cannot_be_judged(file: &str) -> String;
        /// A folder of cars that cannot be looked into, as its fault says: the cars were found elsewhere.
        passed_over(fault: &str) -> String;
        /// No window for a layout.
        no_window(why: &str) -> String;
        /// No window for the demo, which is answered without one.
        no_window_for_demo(why: &str) -> String;
        /// A part of the system that the window needs, and what installs it.
        part_missing(what: &str, install: &str) -> String;
        /// The demo's pictures.
        drawn(files: &[String]) -> String;
    }
}
