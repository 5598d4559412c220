using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Profiles;
using DeckLife.Quantities;

namespace DeckLife.Data.Tables;

/// <summary>Reads chloride tables: one row a slice, as laboratories and spreadsheets write them.</summary>
public static class ChlorideTable
{
    private const double DeepestMm = 2000;
    private const double HighestKgPerM3 = 120;
    private const double HighKgPerM3 = 40;
    private const double OldestYears = 200;

    private static readonly Unit Millimetre = Units.Of(Dimension.Length)[0];

    /// <summary>Reads a chloride table (.csv, .txt, or .xlsx) or lists all its problems.</summary>
    /// <param name="path">The file.</param>
    /// <param name="options">What the table does not say itself.</param>
    /// <returns>All cores, or no cores and what is wrong; never a part.</returns>
    public static ChlorideTableResult Read(string path, ChlorideTableOptions options)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(options);
        var problems = new ProblemList(Path.GetFileName(path));
        return FileContent.TryRead(path, problems, out var bytes)
            ? Read(problems.File, bytes, options)
            : new() { Cores = [], Problems = problems.ToImmutable() };
    }

    /// <summary>Reads a chloride table from memory.</summary>
    /// <param name="name">The file's name, for messages; its ending tells workbooks from text.</param>
    /// <param name="content">The bytes.</param>
    /// <param name="options">What the table does not say itself.</param>
    public static ChlorideTableResult Read(
        string name,
        ReadOnlyMemory<byte> content,
        ChlorideTableOptions options
    )
    {
        ArgumentException.ThrowIfNullOrEmpty(name);
        ArgumentNullException.ThrowIfNull(options);
        var problems = new ProblemList(name);
        var input = FileContent.Fingerprint(name, content);
        var source = TableSources.Open(name, content, "chlorides", problems);
        return (source is null ? null : Read(source, options, problems)) is { } result
            ? result with
            {
                Input = input,
            }
            : new()
            {
                Cores = [],
                Problems = problems.ToImmutable(),
                Input = input,
            };
    }

    internal static ChlorideTableResult? Read(
        ITableSource source,
        ChlorideTableOptions options,
        ProblemList problems
    )
    {
        var table = OpenTable.TryOpen(
            source,
            ChlorideColumns.Specs,
            options.ColumnNames.WithComparers(StringComparer.Ordinal),
            null,
            "core, top, bottom (or depth) and chloride, such as core,top_in,bottom_in,chloride_lb_per_yd3",
            problems
        );
        if (table is null || !HasColumns(table))
        {
            return null;
        }

        var extraction = HeadExtraction(table, options);
        var places = CellReading.PlaceColumns(table);
        var builders = new Dictionary<string, CoreBuilder>(StringComparer.Ordinal);
        var rows = 0;
        Unit? contentUnit = null;
        var oneUnit = true;
        foreach (var row in table.Rows())
        {
            rows++;
            ReadRow(
                table,
                row,
                options,
                places,
                builders,
                ref extraction,
                ref contentUnit,
                ref oneUnit
            );
        }

        if (rows == 0 && !problems.HasErrors)
        {
            problems.Add(
                DiagnosticCatalogue.RowsMissing,
                null,
                null,
                null,
                "add one row for each slice."
            );
        }

        var cores = Build(builders.Values, options, problems);
        return new()
        {
            Cores = problems.HasErrors ? [] : cores,
            Problems = problems.ToImmutable(),
            Extraction = extraction,
            DepthUnit = (table["top"] ?? table["depth"])?.Unit,
            ContentUnit = oneUnit ? contentUnit : null,
        };
    }

    private static bool HasColumns(OpenTable table)
    {
        var sound = true;
        void Need(string name, string why)
        {
            if (!table.Has(name))
            {
                sound = false;
                table.Problems.Add(DiagnosticCatalogue.ColumnMissing, null, name, null, name, why);
            }
        }

        Need("core", "each row names its core.");
        Need(
            "chloride",
            "write chloride_lb_per_yd3, chloride_kg_per_m3, chloride_percent_of_concrete, chloride_percent_of_binder or chloride_ppm."
        );
        if (table["depth"] is { } centre)
        {
            if ((table["top"] ?? table["bottom"]) is { } other)
            {
                sound = false;
                table.Problems.Add(
                    DiagnosticCatalogue.DepthTwice,
                    null,
                    centre.Head,
                    null,
                    centre.Head,
                    other.Head
                );
            }
            else
            {
                table.Problems.Add(DiagnosticCatalogue.CentresOnly, null, centre.Head, null);
            }
        }
        else
        {
            Need(
                "top",
                "write top_in and bottom_in, or top_mm and bottom_mm (depth_in alone where only the centre of the slices is known)."
            );
            Need("bottom", "write top_in and bottom_in, or top_mm and bottom_mm.");
        }

        return sound;
    }

    private static ChlorideExtraction HeadExtraction(OpenTable table, ChlorideTableOptions options)
    {
        var column = table["chloride"]!;
        if (
            column.Extraction != ChlorideExtraction.NotStated
            && options.Extraction != ChlorideExtraction.NotStated
            && column.Extraction != options.Extraction
        )
        {
            table.Problems.Add(
                DiagnosticCatalogue.ExtractionMixed,
                null,
                column.Head,
                null,
                $"The column '{column.Head}'",
                Say(column.Extraction),
                "the deck's chloride",
                Say(options.Extraction)
            );
        }

        return column.Extraction != ChlorideExtraction.NotStated
            ? column.Extraction
            : options.Extraction;
    }

    private static string Say(ChlorideExtraction extraction) =>
        extraction == ChlorideExtraction.AcidSoluble ? "acid-soluble" : "water-soluble";

    private static void ReadRow(
        OpenTable table,
        TableRow row,
        ChlorideTableOptions options,
        (string Along, string Across)? places,
        Dictionary<string, CoreBuilder> builders,
        ref ChlorideExtraction extraction,
        ref Unit? contentUnit,
        ref bool oneUnit
    )
    {
        var problems = table.Problems;
        var coreColumn = table["core"]!;
        var name = NumberText.Clean(coreColumn.Text(row));
        if (name.Length == 0)
        {
            problems.Add(
                DiagnosticCatalogue.CellEmpty,
                row.Line,
                coreColumn.Head,
                "",
                "write the core's name in each of its rows."
            );
            name = "";
        }
        else if (name.Length > 100)
        {
            problems.Add(
                DiagnosticCatalogue.ValueUnreadable,
                row.Line,
                coreColumn.Head,
                name,
                name,
                "a core's name has at most 100 characters"
            );
            return;
        }
        else if (name.Any(c => char.IsControl(c) || UnseenCharacter.Is(c)))
        {
            problems.Add(
                DiagnosticCatalogue.ValueUnreadable,
                row.Line,
                coreColumn.Head,
                name,
                name,
                "a core's name is one line without control characters and marks of direction, which can't be seen: type it anew"
            );
            return;
        }

        if (!builders.TryGetValue(name, out var core))
        {
            core = builders[name] = new CoreBuilder(name, row.Line);
        }

        ReadFacts(table, row, options, places, core);
        ReadExtraction(table, row, ref extraction);
        var depths = ReadDepths(table, row);
        var content = ReadContent(table, row, name, options, out var unit);
        if (unit is not null)
        {
            oneUnit &= contentUnit is null || contentUnit == unit;
            contentUnit ??= unit;
        }

        var sd = ReadSd(table, row, options);
        var count = ReadCount(table, row);
        if (depths is { } d && content is { } c && name.Length > 0)
        {
            core.Add(
                new(
                    row.Line,
                    d.Top,
                    d.Bottom,
                    c.Content,
                    c.IsNonDetect,
                    sd,
                    count,
                    table["replicate"]?.Text(row) ?? "",
                    (table["top"] ?? table["depth"])!.Unit ?? Millimetre
                )
            );
        }
    }

    private static void ReadFacts(
        OpenTable table,
        TableRow row,
        ChlorideTableOptions options,
        (string Along, string Across)? places,
        CoreBuilder core
    )
    {
        var problems = table.Problems;
        if (
            table["age"] is { } ageColumn
            && ageColumn.Text(row) is { Length: > 0 } text
            && ageColumn.TryMeasure(table, row, text, null, out var number, out var unit, out _)
        )
        {
            var years = number * unit.Factor;
            if (years is > 0 and <= OldestYears)
            {
                core.State("the age", years, text, row.Line, ageColumn.Head, problems);
            }
            else
            {
                ageColumn.Impossible(
                    problems,
                    row,
                    text,
                    number,
                    "an exposure age is above 0 and at most 200 yr"
                );
            }
        }

        foreach (var date in new[] { "sampled", "first_salt" })
        {
            if (CellReading.Date(table, row, date) is { } day)
            {
                var column = table[date]!;
                core.State(
                    date == "sampled" ? "the sampling date" : "the first salt",
                    day,
                    column.Text(row),
                    row.Line,
                    column.Head,
                    problems
                );
            }
        }

        if (
            places is { } place
            && CellReading.Place(table, row, place.Along, place.Across) is { } at
        )
        {
            core.State(
                "the position along",
                at.X,
                table[place.Along]!.Text(row),
                row.Line,
                table[place.Along]!.Head,
                problems
            );
            core.State(
                "the position across",
                at.Y,
                table[place.Across]!.Text(row),
                row.Line,
                table[place.Across]!.Head,
                problems
            );
        }

        if (CellReading.Flag(table, row, "on_crack") is { } crack)
        {
            var column = table["on_crack"]!;
            core.State("on crack", crack, column.Text(row), row.Line, column.Head, problems);
        }
    }

    private static void ReadExtraction(
        OpenTable table,
        TableRow row,
        ref ChlorideExtraction extraction
    )
    {
        if (table["extraction"] is not { } column || column.Text(row) is not { Length: > 0 } text)
        {
            return;
        }

        var said = text.ToUpperInvariant().Split('-', ' ')[0] switch
        {
            "ACID" or "TOTAL" => ChlorideExtraction.AcidSoluble,
            "WATER" => ChlorideExtraction.WaterSoluble,
            _ => ChlorideExtraction.NotStated,
        };
        if (said == ChlorideExtraction.NotStated)
        {
            table.Problems.Add(
                DiagnosticCatalogue.ValueUnreadable,
                row.Line,
                column.Head,
                text,
                text,
                "write acid or water"
            );
        }
        else if (extraction == ChlorideExtraction.NotStated)
        {
            extraction = said;
        }
        else if (extraction != said)
        {
            table.Problems.Add(
                DiagnosticCatalogue.ExtractionMixed,
                row.Line,
                column.Head,
                text,
                "This row",
                Say(said),
                "what was stated before it",
                Say(extraction)
            );
        }
    }

    private static (double Top, double Bottom)? ReadDepths(OpenTable table, TableRow row)
    {
        const string allowed = "a slice of a deck lies between 0 and 2000 mm (79 in)";
        double? Depth(TableColumn column)
        {
            if (column.Text(row).Length > 0)
            {
                return CellReading.Length(table, row, column, 0, DeepestMm, allowed);
            }

            table.Problems.Add(
                DiagnosticCatalogue.CellEmpty,
                row.Line,
                column.Head,
                "",
                "each slice has its depth."
            );
            return null;
        }

        if (table["depth"] is { } centre)
        {
            return Depth(centre) is { } at ? (at, at) : null;
        }

        var topColumn = table["top"]!;
        var bottomColumn = table["bottom"]!;
        var top = Depth(topColumn);
        var bottom = Depth(bottomColumn);
        if (top is not { } t || bottom is not { } b)
        {
            return null;
        }

        if (b <= t)
        {
            table.Problems.Add(
                DiagnosticCatalogue.SliceUpsideDown,
                row.Line,
                bottomColumn.Head,
                bottomColumn.Text(row),
                bottomColumn.Text(row),
                topColumn.Text(row)
            );
            return null;
        }

        return (t, b);
    }

    private static (double Content, bool IsNonDetect)? ReadContent(
        OpenTable table,
        TableRow row,
        string core,
        ChlorideTableOptions options,
        out Unit? unit
    )
    {
        unit = null;
        var column = table["chloride"]!;
        var text = column.Text(row);
        var problems = table.Problems;
        if (text.Length == 0)
        {
            problems.Add(
                DiagnosticCatalogue.CellEmpty,
                row.Line,
                column.Head,
                "",
                "write the content, <limit, or 'not tested'."
            );
            return null;
        }

        if (NonDetectText.IsNotTested(text))
        {
            problems.Add(
                DiagnosticCatalogue.SliceNotTested,
                row.Line,
                column.Head,
                text,
                text,
                core
            );
            return null;
        }

        // The limit is read in each row, so that a fault in its column is found before it matters.
        double? inColumn = null;
        var limitColumn = table["detection_limit"];
        if (limitColumn?.Text(row) is { Length: > 0 } stated)
        {
            inColumn = Content(
                table,
                row,
                limitColumn,
                stated.TrimStart('<', ' '),
                stated,
                options,
                out _
            );
            if (inColumn is null)
            {
                return null;
            }
        }

        if (!NonDetectText.Is(text, out var limit))
        {
            return Content(table, row, column, text, text, options, out unit) is { } content
                ? (content, false)
                : null;
        }

        double? below = inColumn;
        if (limit.Length > 0)
        {
            below = Content(table, row, column, limit, text, options, out unit);
            if (below is null)
            {
                return null;
            }
        }
        else if (below is not null)
        {
            unit = limitColumn!.Unit;
        }
        else if (options.DetectionLimit is { } general)
        {
            if (!general.TryToContent(options.Mix, out var converted, out var why))
            {
                Missing(problems, row, column, general.Unit, options, why);
                return null;
            }

            below = converted.KilogramsPerCubicMetre;
        }

        if (below is null or 0)
        {
            problems.Add(DiagnosticCatalogue.LimitMissing, row.Line, column.Head, text, text);
            return null;
        }

        return (below.Value, true);
    }

    private static double? Content(
        OpenTable table,
        TableRow row,
        TableColumn column,
        string number,
        string cell,
        ChlorideTableOptions options,
        out Unit? unit
    )
    {
        var problems = table.Problems;
        if (!column.TryMeasure(table, row, number, null, out var value, out unit, out _))
        {
            return null;
        }

        const string allowed =
            "a chloride content of concrete lies between 0 and 120 kg/m3 (200 lb/yd3, about 5 % of concrete)";
        if (value < 0 || (unit.Basis != ChlorideBasis.ConcreteVolume && value * unit.Factor > 1))
        {
            column.Impossible(problems, row, cell, value, allowed);
            return null;
        }

        if (
            !new StatedChloride(value, unit, options.Extraction).TryToContent(
                options.Mix,
                out var content,
                out var why
            )
        )
        {
            Missing(problems, row, column, unit, options, why);
            return null;
        }

        var kg = content.KilogramsPerCubicMetre;
        if (kg > HighestKgPerM3)
        {
            column.Impossible(problems, row, cell, value, allowed);
            return null;
        }

        if (kg > HighKgPerM3)
        {
            problems.Add(
                DiagnosticCatalogue.ContentHigh,
                row.Line,
                column.Head,
                cell,
                column.Head,
                cell,
                kg.ToString("G4", CultureInfo.InvariantCulture),
                HighKgPerM3
            );
        }

        if (value == 0 && column.Spec.Name == "chloride")
        {
            problems.Add(DiagnosticCatalogue.ContentZero, row.Line, column.Head, cell, cell);
        }

        return kg;
    }

    private static void Missing(
        ProblemList problems,
        TableRow row,
        TableColumn column,
        Unit unit,
        ChlorideTableOptions options,
        string why
    )
    {
        if (options.MixIsReported)
        {
            return;
        }

        problems.AddOnce(
            DiagnosticCatalogue.MixMissing,
            row.Line,
            column.Head,
            null,
            why,
            unit.Basis == ChlorideBasis.ConcreteMass ? options.DensityHint : options.BinderHint
        );
    }

    private static double? ReadSd(OpenTable table, TableRow row, ChlorideTableOptions options)
    {
        if (table["sd"] is not { } column || column.Text(row) is not { Length: > 0 } text)
        {
            return null;
        }

        var sd = Content(table, row, column, text, text, options, out _);
        if (sd is 0)
        {
            column.Impossible(
                table.Problems,
                row,
                text,
                0,
                "a standard deviation is above 0; leave the cell empty where there is none"
            );
            return null;
        }

        return sd;
    }

    private static int ReadCount(OpenTable table, TableRow row)
    {
        if (table["n"] is not { } column || column.Text(row) is not { Length: > 0 } text)
        {
            return 1;
        }

        if (
            int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var count)
            && count is >= 1 and <= 100
        )
        {
            return count;
        }

        table.Problems.Add(DiagnosticCatalogue.CountImpossible, row.Line, column.Head, text, text);
        return 1;
    }

    private static ImmutableArray<CoreProfile> Build(
        IEnumerable<CoreBuilder> builders,
        ChlorideTableOptions options,
        ProblemList problems
    )
    {
        var cores = ImmutableArray.CreateBuilder<CoreProfile>();
        foreach (var builder in builders.OrderBy(b => b.FirstLine))
        {
            var slices = builder.Slices(problems);
            var age = CoreAge.Of(builder, options, problems);
            if (slices.Length > 0 && age is { } years)
            {
                cores.Add(
                    new CoreProfile
                    {
                        Core = builder.Name,
                        ExposureAge = years,
                        Slices = slices,
                        OnCrack = builder.Fact<bool>("on crack") ?? false,
                        X = builder.Fact<double>("the position along"),
                        Y = builder.Fact<double>("the position across"),
                    }
                );
            }
        }

        LikelyDuplicates.Report(cores, problems);
        return cores.ToImmutable();
    }
}
