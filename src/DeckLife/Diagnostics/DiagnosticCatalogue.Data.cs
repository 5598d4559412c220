namespace DeckLife.Diagnostics;

/// <summary>DL1nnn: files, tables and quantities.</summary>
public static partial class DiagnosticCatalogue
{
    /// <summary>A file that is needed is not there.</summary>
    public static DiagnosticEntry FileMissing { get; } =
        new(
            "DL1001",
            Severity.Error,
            "A file is missing",
            "{0} is not there: {1}",
            "A deck folder needs deck.json and a chloride table (chlorides.csv or a chlorides sheet in an .xlsx workbook). Other tables are optional."
        );

    /// <summary>A file can't be read.</summary>
    public static DiagnosticEntry FileUnreadable { get; } =
        new(
            "DL1002",
            Severity.Error,
            "A file can't be read",
            "{0} can't be read: {1} Close it in other programs, check its permissions, or save it again.",
            "The operating system or the file's own format refused. Nothing of the file is used."
        );

    /// <summary>A file is too large.</summary>
    public static DiagnosticEntry FileTooLarge { get; } =
        new(
            "DL1003",
            Severity.Error,
            "A file is too large",
            "{0} is too large: at most {1} is read. Split it, or leave out what is not a survey of this deck.",
            "The limits guard against files that would exhaust memory, compressed workbooks above all. They are far beyond what surveys of one deck hold."
        );

    /// <summary>A file is not text.</summary>
    public static DiagnosticEntry FileNotText { get; } =
        new(
            "DL1004",
            Severity.Error,
            "A file is not a table",
            "{0} is not a text table: {1} Save it as CSV (UTF-8) or as an .xlsx workbook under its proper name.",
            "A table is text with commas, semicolons or tabs, in UTF-8 or UTF-16, or a workbook ending in .xlsx. Binary content is never interpreted."
        );

    /// <summary>A file's encoding was taken from its bytes.</summary>
    public static DiagnosticEntry EncodingAssumed { get; } =
        new(
            "DL1005",
            Severity.Warning,
            "Encoding assumed",
            "{0} is not UTF-8: it is read as Windows-1252 (Western European). Check names with accents; save it as UTF-8.",
            "Older spreadsheet programs save text in the encoding of the computer. Numbers are the same in all of them; letters with accents may not be."
        );

    /// <summary>No row of column heads was found.</summary>
    public static DiagnosticEntry HeadMissing { get; } =
        new(
            "DL1006",
            Severity.Error,
            "No column heads",
            "No row of column heads was found in the first {0} rows: a head row names at least {1}. Name the columns, with their units where they have one (for example top_in, cover_mm).",
            "Titles may stand above the heads, but the heads must be there: columns are never told apart by their place."
        );

    /// <summary>A column is there twice.</summary>
    public static DiagnosticEntry ColumnTwice { get; } =
        new(
            "DL1007",
            Severity.Error,
            "A column twice",
            "The columns '{0}' and '{1}' both give {2}: keep one, with one unit.",
            "Two columns for the same quantity may disagree, and choosing one would be a guess."
        );

    /// <summary>A needed column is missing.</summary>
    public static DiagnosticEntry ColumnMissing { get; } =
        new(
            "DL1008",
            Severity.Error,
            "A column is missing",
            "The column {0} is missing: {1}",
            "The table can't be used without it. Heads carry their unit as a suffix: top_in, bottom_mm, chloride_lb_per_yd3, cover_in, potential_mv_cse."
        );

    /// <summary>A column was not read.</summary>
    public static DiagnosticEntry ColumnNotRead { get; } =
        new(
            "DL1009",
            Severity.Warning,
            "A column was not read",
            "The column '{0}' is not known here and was not read. Known are {1}.",
            "Columns beyond the known ones are allowed and have no effect. Check that none of them was meant to matter."
        );

    /// <summary>A column's name is close to a known one.</summary>
    public static DiagnosticEntry ColumnMisspelt { get; } =
        new(
            "DL1010",
            Severity.Error,
            "A column name is almost right",
            "The column '{0}' is not known here, but it is close to '{1}': write {2}, or rename the column if it means something else.",
            "A misspelt optional column would otherwise be left out of the answer without anyone noticing."
        );

    /// <summary>Quotes do not pair.</summary>
    public static DiagnosticEntry QuotesBroken { get; } =
        new(
            "DL1011",
            Severity.Error,
            "Quotes do not pair",
            "The quotes of this row do not pair ({0}): what follows may have been swallowed. Close the quote; a quote inside a quoted cell is written twice.",
            "An unclosed quote makes one cell of all rows up to the next quote, so that data vanish."
        );

    /// <summary>A row has more cells than there are heads.</summary>
    public static DiagnosticEntry RowTooLong { get; } =
        new(
            "DL1012",
            Severity.Error,
            "A row has too many cells",
            "The row has {0} cells, but there are {1} column heads.{2} Each cell stands under a head.",
            "Often a decimal comma in a comma-separated file, or an unquoted comma in a remark."
        );

    /// <summary>A cell is empty.</summary>
    public static DiagnosticEntry CellEmpty { get; } =
        new(
            "DL1013",
            Severity.Error,
            "A cell is empty",
            "The cell is empty: {0}",
            "An empty cell is never taken as 0, as the cell above, or as not detected. Core names are repeated in each row; what was not tested says 'not tested'."
        );

    /// <summary>A value can't be read.</summary>
    public static DiagnosticEntry ValueUnreadable { get; } =
        new(
            "DL1014",
            Severity.Error,
            "A value can't be read",
            "'{0}' can't be read: {1}.",
            "Numbers have a decimal point; a decimal comma is accepted only where it has one reading. Lengths in inches may be fractions (1 1/4)."
        );

    /// <summary>A unit is missing.</summary>
    public static DiagnosticEntry UnitMissing { get; } =
        new(
            "DL1015",
            Severity.Error,
            "A unit is missing",
            "'{0}' has no unit: {1} never has a unit by default. Put it in the column's head (for example {2}), in a unit column, or beside the number.",
            "Units are never guessed: an inch taken for a millimetre would pass unnoticed and change the answer by decades."
        );

    /// <summary>A unit is stated twice.</summary>
    public static DiagnosticEntry UnitTwice { get; } =
        new(
            "DL1016",
            Severity.Error,
            "A unit is stated twice",
            "The unit of {0} is stated twice, {1} and {2}: keep one.",
            "A unit in the head and again beside the number or in a unit column leaves open which one was converted. Even where both agree, one may have been added to mend the other."
        );

    /// <summary>A unit is not known.</summary>
    public static DiagnosticEntry UnitUnknown { get; } =
        new(
            "DL1017",
            Severity.Error,
            "A unit is not known",
            "{0}.",
            "Chloride: kg/m3, lb/yd3 (lb/cy, pcy), % of concrete, % of binder, ppm. Lengths: mm, cm, m, in, ft. Potentials: mV or V with the electrode."
        );

    /// <summary>A value is impossible.</summary>
    public static DiagnosticEntry ValueImpossible { get; } =
        new(
            "DL1018",
            Severity.Error,
            "A value is impossible",
            "{0} = '{1}' is not possible: {2}.",
            "Limits that no bridge deck passes. A value beyond them is a slip of the unit, of the decimal mark, or of the column."
        );

    /// <summary>A spreadsheet made a date of a number.</summary>
    public static DiagnosticEntry NumberBecameDate { get; } =
        new(
            "DL1019",
            Severity.Error,
            "A number became a date",
            "'{0}' is {1}, not {2}: a spreadsheet turns entries such as 1/2 or 2-1 into dates. Type the number again in a cell formatted as text or number.",
            "Spreadsheets store the date as the count of days since 1899-12-30; which fraction or range had been typed can only be told from the laboratory's sheet."
        );

    /// <summary>A date is unclear.</summary>
    public static DiagnosticEntry DateUnclear { get; } =
        new(
            "DL1020",
            Severity.Error,
            "A date is unclear",
            "'{0}' is not a date that has one reading: {1}. Write year-month-day, for example 2019-03-12.",
            "03/12/2019 is March in one country and December in another; two-digit years have two centuries."
        );

    /// <summary>Decimal commas and points in one file.</summary>
    public static DiagnosticEntry DecimalMarksMixed { get; } =
        new(
            "DL1021",
            Severity.Warning,
            "Decimal commas and points in one file",
            "The table has both decimal points and decimal commas; each number that has one reading was read so, the others are errors. Use one mark.",
            "Mixed marks come from sheets typed on two computers. A mark followed by three digits may then group thousands or not."
        );

    /// <summary>Problems that are not listed.</summary>
    public static DiagnosticEntry MoreOfTheSame { get; } =
        new(
            "DL1022",
            Severity.Note,
            "More of the same",
            "{0} more problems of the kind {1} are not listed.",
            "Each kind is listed up to a number a file, so that one slip in a column does not bury the rest."
        );

    /// <summary>A slice was not tested.</summary>
    public static DiagnosticEntry SliceNotTested { get; } =
        new(
            "DL1023",
            Severity.Warning,
            "A slice was not tested",
            "'{0}': this slice of core {1} was not tested and is not used. Give its content if the laboratory has it.",
            "The slice takes no part in the fit. It is neither 0 nor below detection."
        );

    /// <summary>A slice's bottom is not below its top.</summary>
    public static DiagnosticEntry SliceUpsideDown { get; } =
        new(
            "DL1024",
            Severity.Error,
            "A slice is upside down",
            "The bottom of the slice, {0}, is not below its top, {1}. Depths count downwards; use a depth column where only the centre is known.",
            "Often two exchanged columns, or a unit given to only one of them."
        );

    /// <summary>A slice is there twice.</summary>
    public static DiagnosticEntry SliceTwice { get; } =
        new(
            "DL1025",
            Severity.Error,
            "A slice twice",
            "Core {0} has the slice {1} again (also row {2}): number determinations of one slice in a replicate column, or remove the copy.",
            "Without numbers a copied row can't be told from a second determination, and a copy would count twice."
        );

    /// <summary>Slices overlap.</summary>
    public static DiagnosticEntry SlicesOverlap { get; } =
        new(
            "DL1026",
            Severity.Warning,
            "Slices overlap",
            "The slices of rows {0} and {1} of core {2} overlap by {3}: check the depths.",
            "Powder of two holes may overlap; a slip of a depth does too. Both slices are used."
        );

    /// <summary>Centre and limits of a slice are both given.</summary>
    public static DiagnosticEntry DepthTwice { get; } =
        new(
            "DL1027",
            Severity.Error,
            "Slices given in two ways",
            "The table gives the centre of the slices ('{0}') beside their top or bottom ('{1}'): keep top and bottom; the centre alone only where the thickness is not known.",
            "The two may disagree, and the fit takes slice means between top and bottom."
        );

    /// <summary>Only the centres of the slices are known.</summary>
    public static DiagnosticEntry CentresOnly { get; } =
        new(
            "DL1028",
            Severity.Note,
            "Only the centres of the slices are known",
            "Only the centres of the slices are given, not their thickness: they are fitted as points. Give top and bottom of each slice where they are known.",
            "A slice's content is a mean over its thickness. Taking it as the content at the centre biases the diffusion coefficient, upwards for thick slices near the surface."
        );

    /// <summary>A non-detect has no limit.</summary>
    public static DiagnosticEntry LimitMissing { get; } =
        new(
            "DL1029",
            Severity.Error,
            "The detection limit is missing",
            "'{0}' says that nothing was detected, not below which limit: write <limit (for example <0.010), or add a detection_limit column with its unit.",
            "A non-detect is a value between 0 and the limit. Without the limit it says nothing, and neither 0 nor leaving it out would be right."
        );

    /// <summary>The density or binder content is missing.</summary>
    public static DiagnosticEntry MixMissing { get; } =
        new(
            "DL1030",
            Severity.Error,
            "The concrete's density or binder content is missing",
            "{0} Give {1}.",
            "A share of the concrete's mass needs its density, a share of the binder its content, to become kg/m3. The unit weight alone moves results by 2 to 4 %, so it is asked for."
        );

    /// <summary>A content is unusually high.</summary>
    public static DiagnosticEntry ContentHigh { get; } =
        new(
            "DL1031",
            Severity.Warning,
            "A chloride content is unusually high",
            "{0} = '{1}' is {2} kg/m3, above {3} kg/m3: check the unit.",
            "Contents above about 25 kg/m3 (42 lb/yd3) are rare even in marine splash zones (the highest of 148 profiles of marine substructures are near it). The value is used."
        );

    /// <summary>A content of exactly 0.</summary>
    public static DiagnosticEntry ContentZero { get; } =
        new(
            "DL1032",
            Severity.Warning,
            "A chloride content of exactly 0",
            "The content '{0}' is exactly 0, which no laboratory measures: if it means not detected, write <limit.",
            "It is used as 0. A non-detect given as 0 pulls the background and the diffusion coefficient down."
        );

    /// <summary>No exposure age.</summary>
    public static DiagnosticEntry AgeMissing { get; } =
        new(
            "DL1033",
            Severity.Error,
            "No exposure age",
            "Core {0} has no exposure age: add an age_yr column, or sampled and first_salt dates, or {1}.",
            "The diffusion coefficient is found as a product with the age: without the age there is none."
        );

    /// <summary>One core with several ages or places.</summary>
    public static DiagnosticEntry CoreContradicts { get; } =
        new(
            "DL1034",
            Severity.Error,
            "One core, two statements",
            "Core {0} has {1} '{2}' here and '{3}' in row {4}: one core has one. Name the cores apart if they are two.",
            "Age, position and crack belong to the core, and are the same in all of its rows."
        );

    /// <summary>Two cores look like one.</summary>
    public static DiagnosticEntry CoresAlike { get; } =
        new(
            "DL1035",
            Severity.Warning,
            "Two cores are likely the same one",
            "Cores {0} and {1} have the same {2} contents{3}: likely one core entered twice. Remove one, or keep both if they are two.",
            "A core that counts twice makes the deck look surer than it is. Both are used until one is removed."
        );

    /// <summary>Core names differ only in case or spaces.</summary>
    public static DiagnosticEntry CoreNamesClose { get; } =
        new(
            "DL1036",
            Severity.Warning,
            "Two core names are almost the same",
            "The core names '{0}' and '{1}' differ only in letter case, spaces or signs: they are taken as two cores. Spell them alike if they are one.",
            "One core split in two gives two worse profiles."
        );

    /// <summary>A table has no rows.</summary>
    public static DiagnosticEntry RowsMissing { get; } =
        new(
            "DL1037",
            Severity.Error,
            "A table without rows",
            "There are column heads but no rows below them: {0}",
            "An empty table is most often an export that went wrong."
        );

    /// <summary>Replicates kept apart.</summary>
    public static DiagnosticEntry ReplicatesApart { get; } =
        new(
            "DL1038",
            Severity.Note,
            "Replicates kept apart",
            "Some determinations of the slice {0} of core {1} are below detection: they are kept as single values, not averaged.",
            "A mean of a number and a non-detect has no value; the fit takes each for what it says."
        );

    /// <summary>Acid- and water-soluble contents together.</summary>
    public static DiagnosticEntry ExtractionMixed { get; } =
        new(
            "DL1039",
            Severity.Error,
            "Acid- and water-soluble chloride together",
            "{0} is {1}, but {2} is {3}: the two are never compared. Use one method, or convert with a ratio measured on this concrete.",
            "Water-soluble chloride is a part of the acid-soluble that differs between concretes; no factor holds for all."
        );

    /// <summary>Title rows were passed over.</summary>
    public static DiagnosticEntry TitleRows { get; } =
        new(
            "DL1040",
            Severity.Note,
            "Title rows",
            "{0} above the column heads taken as title: {1}",
            "Rows above the heads are not data. Check that the heads were found in the right row."
        );

    /// <summary>Not yes or no.</summary>
    public static DiagnosticEntry FlagUnclear { get; } =
        new(
            "DL1041",
            Severity.Error,
            "Not yes or no",
            "'{0}' is neither yes nor no: write yes or no.",
            "Accepted are yes, no, y, n, true, false, 1, 0, cracked, sound, uncracked."
        );

    /// <summary>Half a position.</summary>
    public static DiagnosticEntry PositionHalf { get; } =
        new(
            "DL1042",
            Severity.Error,
            "Half a position",
            "The table gives {0} without {1}: give both, or neither.",
            "A position along the deck alone does not place a reading."
        );

    /// <summary>A cell stands under no head.</summary>
    public static DiagnosticEntry CellWithoutHead { get; } =
        new(
            "DL1043",
            Severity.Error,
            "A cell without a column head",
            "'{0}' stands in column {1}, which has no head: name the column, or empty it.",
            "A value in a column without a head can't be told what it is; it would be lost."
        );

    /// <summary>A slip that is an error of counting.</summary>
    public static DiagnosticEntry CountImpossible { get; } =
        new(
            "DL1044",
            Severity.Error,
            "Not a count",
            "'{0}' is not a number of determinations: write a whole number from 1 to 100.",
            "n says how many determinations the laboratory averaged."
        );

    /// <summary>A file is not JSON.</summary>
    public static DiagnosticEntry JsonBroken { get; } =
        new(
            "DL1101",
            Severity.Error,
            "Not JSON",
            "The file is not JSON from here on: {0}. Check commas, quotes and brackets just before this place; comments (// or /* */) are allowed.",
            "deck.json is JSON with comments; a comma may follow the last item. An editor with the schema that decklife schema prints shows such faults while typing."
        );

    /// <summary>A key is there twice.</summary>
    public static DiagnosticEntry KeyTwice { get; } =
        new(
            "DL1102",
            Severity.Error,
            "A key twice",
            "The key '{0}' is there twice: keep one.",
            "Most programs silently take the last one."
        );

    /// <summary>A key is not known.</summary>
    public static DiagnosticEntry KeyUnknown { get; } =
        new(
            "DL1103",
            Severity.Error,
            "An unknown key",
            "The key '{0}' is not known in {1}. {2}",
            "A key that is passed over in silence is a setting that has no effect. Remarks go into comments."
        );

    /// <summary>A needed key is missing.</summary>
    public static DiagnosticEntry KeyMissing { get; } =
        new(
            "DL1104",
            Severity.Error,
            "A key is missing",
            "{0} is missing. {1} For example {2}.",
            "There is no default for what decides the answer."
        );

    /// <summary>A value has the wrong shape.</summary>
    public static DiagnosticEntry ShapeWrong { get; } =
        new(
            "DL1105",
            Severity.Error,
            "A value of the wrong kind",
            "{0} is {1}, but it must be {2}.",
            "Quantities are texts in quotes with their unit; counts and fractions are plain numbers."
        );

    /// <summary>A word is not allowed.</summary>
    public static DiagnosticEntry ChoiceUnknown { get; } =
        new(
            "DL1106",
            Severity.Error,
            "Not one of the allowed words",
            "{0} is '{1}': allowed are {2}.{3}",
            "The words are fixed, in small letters."
        );

    /// <summary>A quantity is not one.</summary>
    public static DiagnosticEntry QuantityUnreadable { get; } =
        new(
            "DL1107",
            Severity.Error,
            "A quantity can't be read",
            "{0}: {1}",
            "A quantity is a number and a unit, such as 2.5 in, 1.2 lb/yd3, 30 mm2/yr, 0.4 % of binder, 25 yr."
        );

    /// <summary>A quantity is out of range.</summary>
    public static DiagnosticEntry QuantityImpossible { get; } =
        new(
            "DL1108",
            Severity.Error,
            "A quantity is impossible",
            "{0} is '{1}', which is not possible: {2}.",
            "Limits that no bridge deck passes: most often a slip of the unit or of the decimal mark."
        );

    /// <summary>A name refers to nothing.</summary>
    public static DiagnosticEntry NameUnknown { get; } =
        new(
            "DL1109",
            Severity.Error,
            "A name is not known",
            "{0} names the material '{1}', which is not among the materials ({2}).{3}",
            "Strategies and prices refer to materials by their names, letter by letter."
        );

    /// <summary>A name is there twice.</summary>
    public static DiagnosticEntry NameTwice { get; } =
        new(
            "DL1110",
            Severity.Error,
            "A name twice",
            "{0} has the name '{1}', which is taken already: give each its own name.",
            "Two strategies or materials of one name could not be told apart in the report."
        );

    /// <summary>One of two keys must be there.</summary>
    public static DiagnosticEntry OneOfTwo { get; } =
        new(
            "DL1111",
            Severity.Error,
            "One of two",
            "{0}: give {1} or {2}, {3}.",
            "Two statements of one fact may disagree; none leaves it open."
        );

    /// <summary>A removal rule has the wrong keys.</summary>
    public static DiagnosticEntry KeyNotForRule { get; } =
        new(
            "DL1112",
            Severity.Error,
            "A key that the rule does not use",
            "{0} has '{1}', which the rule {2} does not use: {3}.",
            "A value that has no effect was meant to have one."
        );

    /// <summary>A file in the folder is not known.</summary>
    public static DiagnosticEntry FileNotRead { get; } =
        new(
            "DL1113",
            Severity.Warning,
            "A file was not read",
            "{0} was not read: {1}",
            "Known are deck.json, chlorides.csv, cover.csv, half-cell.csv, sounding.csv, and workbooks (.xlsx) with sheets of those names."
        );

    /// <summary>No cover is known.</summary>
    public static DiagnosticEntry CoverAbsent { get; } =
        new(
            "DL1114",
            Severity.Warning,
            "No cover survey",
            "There is no cover survey and no stated cover: the cores are fitted, but nothing can be projected. Add cover.csv, or cover.stated in deck.json.",
            "Cover decides when salt reaches the bars; its spread over the deck decides the area."
        );

    /// <summary>No half-cell survey.</summary>
    public static DiagnosticEntry HalfCellAbsent { get; } =
        new(
            "DL1115",
            Severity.Note,
            "No half-cell survey",
            "There is no half-cell survey: which areas already corrode is not learned from potentials. Add half-cell.csv where one was made.",
            "The projection starts from the cores and covers alone, so its band is wider."
        );

    /// <summary>No sounding survey.</summary>
    public static DiagnosticEntry SoundingAbsent { get; } =
        new(
            "DL1116",
            Severity.Note,
            "No sounding survey",
            "There is no sounding survey: the damaged area of today is not known, and the projection is not held against it. Add sounding.csv where the deck was sounded.",
            "Without it the curve starts from the model alone."
        );

    /// <summary>The surface of measurement is not said.</summary>
    public static DiagnosticEntry OverlaySurfaceUnsaid { get; } =
        new(
            "DL1117",
            Severity.Error,
            "From which surface",
            "The deck wears an overlay, but {0} is missing: say whether {1} count from the present-surface or from the deck-concrete below the overlay.",
            "The two differ by the thickness of the overlay, which is as much as the whole cover of many decks."
        );

    /// <summary>A slice lies below the slab.</summary>
    public static DiagnosticEntry SliceBeyondSlab { get; } =
        new(
            "DL1118",
            Severity.Error,
            "A slice below the slab",
            "Core {0} has a slice down to {1:0.#} mm, but the deck is {2:0.#} mm thick: check the unit of the depths and the thickness.",
            "No powder can come from below the slab."
        );

    /// <summary>The extraction is not stated.</summary>
    public static DiagnosticEntry ExtractionUnsaid { get; } =
        new(
            "DL1119",
            Severity.Warning,
            "Extraction not stated",
            "{0} does not say whether the chloride is acid- or water-soluble: it is taken to be the same as {1}. State it.",
            "Water-soluble contents are lower than acid-soluble ones of the same concrete; comparing one with the other shifts the start of corrosion by years."
        );

    /// <summary>A position lies outside the deck.</summary>
    public static DiagnosticEntry PlaceOutside { get; } =
        new(
            "DL1121",
            Severity.Warning,
            "A position outside the deck",
            "{0} at x {1} m, y {2} m lies outside the deck ({3} m by {4} m): check the unit and the origin.",
            "Positions count from one corner of the deck. Readings outside are used, but a map of them is wrong."
        );

    /// <summary>Area and dimensions disagree.</summary>
    public static DiagnosticEntry AreaDisagrees { get; } =
        new(
            "DL1122",
            Severity.Warning,
            "Area and dimensions disagree",
            "area is {0} m2, but length times width is {1} m2: check the units.",
            "Skewed and widened decks differ by some per cent; a unit slip by a factor of ten."
        );

    /// <summary>All potentials are positive.</summary>
    public static DiagnosticEntry SignDropped { get; } =
        new(
            "DL1201",
            Severity.Error,
            "All potentials are positive",
            "All {0} potentials are positive ({1} to {2}): was the minus sign left out? Answer in deck.json, halfCell.readings: sign-left-out (volts-sign-left-out where they are volts too), or as-written if they are right.",
            "Steel in concrete is at 0 to -700 mV CSE. Many meters show the amount only. The sign is never changed without your word."
        );

    /// <summary>Potentials look like volts.</summary>
    public static DiagnosticEntry VoltsAsMillivolts { get; } =
        new(
            "DL1202",
            Severity.Error,
            "Potentials look like volts",
            "No potential is larger than {0} in amount, but the unit is mV: are they volts? Answer in deck.json, halfCell.readings: volts (volts-sign-left-out where the sign is missing too), or as-written if they are right.",
            "Half-cell potentials are tens to hundreds of millivolts. The unit is never changed without your word."
        );

    /// <summary>One potential is unusual.</summary>
    public static DiagnosticEntry PotentialOutlying { get; } =
        new(
            "DL1203",
            Severity.Warning,
            "An unusual potential",
            "{0} mV CSE is unusual: readings of steel in concrete lie between -800 and +200 mV CSE. Check sign and contact.",
            "A single slip of the sign or a lost contact. The reading is used."
        );

    /// <summary>Nodes are missing.</summary>
    public static DiagnosticEntry NodesMissing { get; } =
        new(
            "DL1204",
            Severity.Note,
            "Nodes without a reading",
            "{0} of {1} nodes have no reading and are left out. Add readings that exist.",
            "Blank, NA and - in a grid mean that the node could not be read."
        );

    /// <summary>A node is there twice.</summary>
    public static DiagnosticEntry NodeTwice { get; } =
        new(
            "DL1205",
            Severity.Error,
            "A node twice",
            "The node at x {0} m, y {1} m is there again (also row {2}): keep one reading.",
            "A node that counts twice weighs double."
        );

    /// <summary>A grid is not labelled.</summary>
    public static DiagnosticEntry MatrixCorner { get; } =
        new(
            "DL1206",
            Severity.Error,
            "The corner of the grid",
            "{0}",
            "The cell in the corner names the row and column coordinates with their units, such as y_ft\\x_ft; the unit of the potentials stands in a line above: # units: potential mV CSE."
        );

    /// <summary>An area has no size.</summary>
    public static DiagnosticEntry SoundingShape { get; } =
        new(
            "DL1301",
            Severity.Error,
            "An area without a size",
            "This row has neither a size nor corners: give area_ft2 (or area_m2), or x_min, x_max, y_min, y_max, or station and offset limits, or corners.",
            "An area is a number or a shape in deck coordinates."
        );

    /// <summary>An area is given in two ways.</summary>
    public static DiagnosticEntry SoundingTwoShapes { get; } =
        new(
            "DL1302",
            Severity.Error,
            "An area given in two ways",
            "This row gives {0} and {1}: keep one.",
            "The two may disagree."
        );

    /// <summary>A polygon is not one.</summary>
    public static DiagnosticEntry PolygonBroken { get; } =
        new(
            "DL1303",
            Severity.Error,
            "A shape that is none",
            "This is not a shape: it {0}. Give its limits, or its corners in order around it.",
            "A shape whose sides cross has no definite area."
        );

    /// <summary>Areas overlap.</summary>
    public static DiagnosticEntry AreasOverlap { get; } =
        new(
            "DL1304",
            Severity.Note,
            "Areas overlap",
            "Areas overlap on {1} m2 ({0} of them lie over others): the shared ground is counted once.",
            "Areas surveyed in two passes overlap. The damaged share counts each place once."
        );

    /// <summary>Areas exceed the deck.</summary>
    public static DiagnosticEntry AreasExceedDeck { get; } =
        new(
            "DL1305",
            Severity.Error,
            "More than the deck",
            "The surveyed areas add up to {0} m2, but the deck has {1} m2: check the unit.",
            "1 ft2 is 0.093 m2: an area ten times too large is most often one in square feet, read as square metres."
        );

    /// <summary>A finding is not known.</summary>
    public static DiagnosticEntry FindingUnknown { get; } =
        new(
            "DL1306",
            Severity.Error,
            "A finding is not known",
            "'{0}' is not a finding: write delaminated, spalled or patched.",
            "Hollow and unsound count as delaminated; potholes as spalled; repairs as patched."
        );

    /// <summary>Stations beside coordinates.</summary>
    public static DiagnosticEntry FramesMixed { get; } =
        new(
            "DL1123",
            Severity.Error,
            "Stations beside coordinates",
            "{0} gives stations and {1} gives x: give startStation in deck.json (the station of x = 0), so that both lie on one map.",
            "Without the station of the origin the two surveys can't be laid over each other."
        );

    /// <summary>A table in two places.</summary>
    public static DiagnosticEntry TableTwice { get; } =
        new(
            "DL1124",
            Severity.Error,
            "A table in two places",
            "The table {0} is in {1} and in {2}: keep one.",
            "Two copies may disagree; choosing one would be a guess."
        );

    /// <summary>A grid position can't be read.</summary>
    public static DiagnosticEntry PositionTwice { get; } =
        new(
            "DL1207",
            Severity.Error,
            "A grid line twice",
            "The grid has the position '{0}' twice: keep one.",
            "Each row and column of a grid has a position of its own."
        );

    /// <summary>A number stands where a quantity with its unit is needed.</summary>
    public static DiagnosticEntry QuantityWithoutUnit { get; } =
        new(
            "DL1125",
            Severity.Error,
            "A quantity without a unit",
            "{0} is {1}, a number without a unit: write it in quotes with its unit, for example {2}.",
            "Units are never guessed. Only counts, fractions and exponents are plain numbers."
        );

    /// <summary>A laboratory test of a material gives no diffusion coefficient.</summary>
    public static DiagnosticEntry TestGivesNone { get; } =
        new(
            "DL1126",
            Severity.Error,
            "A test that gives no coefficient",
            "{0}: {1}.",
            "A test is turned into a diffusion coefficient only by its own method, or by a relation that cites who published it, within the range that it was fitted for, and with a spread."
        );

    /// <summary>Rows above the heads look like data.</summary>
    public static DiagnosticEntry DataAboveHead { get; } =
        new(
            "DL1045",
            Severity.Error,
            "Data above the column heads",
            "This row looks like data, but the column heads were found below it, in row {0}: keep one table a file, with its heads above.",
            "Two tables under one another can't be told apart surely; the upper one would be lost."
        );

    /// <summary>A comment looks like data.</summary>
    public static DiagnosticEntry DataInComment { get; } =
        new(
            "DL1046",
            Severity.Warning,
            "A comment that looks like data",
            "This row starts with # and is taken as a comment, so its numbers are not used: remove the # if it is data.",
            "Rows that are commented out on purpose stay visible in this way."
        );
}
