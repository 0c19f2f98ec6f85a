//! Texts of the command that looks at records of visits.

texts! {
    record_command: RecordCommand, "Every fixed text of the command that looks at records of visits.";
    record, "The command.";
    check, "A command of it.";
    show, "A command of it.";
    sheet, "A command of it.";
    file, "A file.";
    head, "A hash.";
    no_head, "What was given is no hash.";
    a_hash, "What stands for a hash.";
    a_record, "What stands for a record's file.";
    format, "A choice.";
    output_of_show, "A file.";
    a_data_file, "What stands for a file of data.";
    after, "Under the help.";
}
