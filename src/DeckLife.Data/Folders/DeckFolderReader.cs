using System.Collections.Immutable;
using System.Globalization;
using DeckLife.Data.Json;
using DeckLife.Data.Networks;
using DeckLife.Data.Tables;
using DeckLife.Data.Workbooks;
using DeckLife.Diagnostics;
using DeckLife.Profiles;
using DeckLife.Quantities;
using DeckLife.Surveys;

namespace DeckLife.Data.Folders;

/// <summary>Reads the files of one folder and puts the deck together.</summary>
internal sealed class DeckFolderReader
{
    private static readonly string[] TableNames = ["chlorides", "cover", "half-cell", "sounding"];

    private readonly string path;
    private readonly ProblemList folder;
    private readonly List<ProblemList> lists = [];
    private readonly List<InputFile> inputs = [];
    private readonly List<StatedField> tables = [];
    private readonly SortedDictionary<string, string> files;
    private readonly List<(string File, WorkbookFile Workbook)> workbooks = [];
    private readonly JsonItem? common;
    private readonly bool coresAreOptional;
    private readonly HashSet<string> borrowed = [];
    private bool unreadable;

    /// <summary>Opens the folder.</summary>
    /// <param name="path">The folder.</param>
    /// <param name="folder">Collects what is wrong with the folder as a whole.</param>
    /// <param name="common">Facts that hold where deck.json does not give them; absent: none.</param>
    /// <param name="coresAreOptional">Whether a deck may do without a chloride table.</param>
    public DeckFolderReader(
        string path,
        ProblemList folder,
        JsonItem? common = null,
        bool coresAreOptional = false
    )
    {
        this.path = path;
        this.folder = folder;
        this.common = common;
        this.coresAreOptional = coresAreOptional;
        lists.Add(folder);

        // By name without case, so that a folder reads alike on all systems; ordered, so that problems are.
        files = new(StringComparer.OrdinalIgnoreCase);
        foreach (var file in Names(path))
        {
            files.TryAdd(file, file);
        }
    }

    public DeckFolderResult Read()
    {
        if (folder.HasErrors)
        {
            return new(null, folder.ToImmutable()) { IsUnreadable = true };
        }

        var draft = ReadDeckJson();
        OpenWorkbooks();
        var context = new TableContext
        {
            Electrode = draft.Electrode,
            Readings = draft.HalfCellReadings,
            StartStationM = draft.StartStationM,
        };
        var chlorides = ReadChlorides(draft);
        var cover = ReadTable("cover", draft.CoverFile, (s, p) => CoverTable.Read(s, context, p));
        var halfCell = ReadTable(
            "half-cell",
            draft.HalfCellFile,
            (s, p) => HalfCellTable.Read(s, context, p)
        );
        var sounding = ReadTable(
            "sounding",
            draft.SoundingFile,
            (s, p) => SoundingTable.Read(s, context, p)
        );
        ReportUnread(draft);
        if (cover is null && draft.Deck?.StatedCoverMm is null)
        {
            folder.Add(DiagnosticCatalogue.CoverAbsent, null, null, null);
        }

        if (halfCell is null)
        {
            folder.Add(DiagnosticCatalogue.HalfCellAbsent, null, null, null);
        }

        if (sounding is null)
        {
            folder.Add(DiagnosticCatalogue.SoundingAbsent, null, null, null);
        }

        CheckFrames(draft, cover, halfCell, sounding);
        CheckSurfaces(draft, cover is not null);
        if (!draft.IsUnreadable)
        {
            CheckExtraction(chlorides?.Extraction ?? draft.Extraction, draft);
        }

        var deck =
            draft.Deck is { } started && chlorides is not null
                ? Assemble(draft, started, chlorides, cover, halfCell, sounding)
                : null;
        var problems = lists.SelectMany(l => l.ToImmutable()).Select(Placed).ToImmutableArray();
        var failed = deck is null || problems.Any(p => p.Severity == Severity.Error);
        return new(failed ? null : deck! with { Diagnostics = problems }, problems)
        {
            IsUnreadable = unreadable,
            Units = UnitsOf(draft.StatedFields),
        };
    }

    // Whoever writes the slab's thickness in inches thinks in them.
    private static MessageUnits UnitsOf(ImmutableArray<StatedField> stated)
    {
        var thickness = stated.FirstOrDefault(f => f.Path == "deckThickness")?.Text ?? "";
        var unit = thickness.Trim().TrimStart([.. "0123456789 ./-+"]);
        return
            Units.TryFind(Dimension.Length, unit, out var found, out _)
            && found.Name is "in" or "ft"
            ? MessageUnits.UsCustomary
            : MessageUnits.Canonical;
    }

    // A problem with a common fact is one of the network's file.
    private Diagnostic Placed(Diagnostic problem) =>
        problem.File == DeckFolder.DeckFile
        && problem.Column is { } key
        && borrowed.Contains(key.Split('.', '[')[0])
            ? problem with
            {
                File = NetworkFolder.NetworkFile,
            }
            : problem;

    private List<string> Names(string path)
    {
        try
        {
            return Directory
                .EnumerateFiles(path)
                .Select(f => Path.GetFileName(f)!)
                .Where(f => !f.StartsWith('.') && !f.StartsWith('~'))
                .Order(StringComparer.Ordinal)
                .ToList();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            folder.Add(
                DiagnosticCatalogue.FileUnreadable,
                null,
                null,
                null,
                "The folder",
                e.Message
            );
            return [];
        }
    }

    private ProblemList List(string file)
    {
        var list = new ProblemList(file);
        lists.Add(list);
        return list;
    }

    private bool TryContent(string name, ProblemList problems, out ReadOnlyMemory<byte> content)
    {
        if (!FileContent.TryRead(Path.Combine(path, name), problems, out content))
        {
            return false;
        }

        if (!inputs.Exists(i => i.Name == name))
        {
            inputs.Add(FileContent.Fingerprint(name, content));
        }

        return true;
    }

    private DeckDraft ReadDeckJson()
    {
        var problems = List(DeckFolder.DeckFile);
        if (!files.TryGetValue(DeckFolder.DeckFile, out var name))
        {
            problems.Add(
                DiagnosticCatalogue.FileMissing,
                null,
                null,
                null,
                DeckFolder.DeckFile,
                "a deck's folder has the facts of the deck in it. decklife schema deck prints what it may hold."
            );
            unreadable = true;
            return new DeckDraft { IsUnreadable = true };
        }

        if (
            !TryContent(name, problems, out var bytes)
            || !TextDecoding.TryToUtf8(bytes, problems, out var utf8)
        )
        {
            unreadable = true;
            return new DeckDraft { IsUnreadable = true };
        }

        var root = JsonTree.ReadObject(utf8, DeckFolder.DeckFile, problems);
        if (root is null)
        {
            unreadable = true;
            return new DeckDraft { IsUnreadable = true };
        }

        foreach (var member in common?.Members ?? [])
        {
            if (root[member.Key] is null)
            {
                root.Members.Add(member);
                borrowed.Add(member.Key);
            }
        }

        var draft = DeckJsonReader.Read(root, problems);
        draft.StatedFields = StatedFieldList.Of(root, name);
        return draft;
    }

    private void OpenWorkbooks()
    {
        foreach (
            var name in files.Values.Where(f =>
                f.EndsWith(".xlsx", StringComparison.OrdinalIgnoreCase)
            )
        )
        {
            var problems = List(name);
            if (
                TryContent(name, problems, out var bytes)
                && WorkbookFile.Open(bytes, problems) is { } workbook
            )
            {
                workbooks.Add((name, workbook));
            }
        }
    }

    // A table is a text file of its name, the file that deck.json names, or a sheet of its name in a workbook.
    private (string File, ITableSource? Source, ProblemList Problems)? Find(
        string table,
        string? stated
    )
    {
        var found = new List<(string File, Func<ProblemList, ITableSource?> Open)>();
        var textName = stated ?? table + ".csv";
        if (
            files.TryGetValue(textName, out var file)
            && !file.EndsWith(".xlsx", StringComparison.OrdinalIgnoreCase)
        )
        {
            found.Add(
                (
                    file,
                    p =>
                        TryContent(file, p, out var bytes)
                            ? TableSources.Open(file, bytes, table, p)
                            : null
                )
            );
        }

        foreach (var (name, workbook) in workbooks)
        {
            var named =
                string.Equals(name, textName, StringComparison.OrdinalIgnoreCase)
                || string.Equals(
                    Path.GetFileNameWithoutExtension(name),
                    table,
                    StringComparison.OrdinalIgnoreCase
                );
            if (workbook.Sheet(table, anyOnly: named) is { } sheet)
            {
                found.Add((name, _ => sheet));
            }
        }

        if (found.Count == 0)
        {
            if (stated is not null)
            {
                folder.Add(
                    DiagnosticCatalogue.FileMissing,
                    null,
                    null,
                    stated,
                    stated,
                    $"deck.json names it as the {table} table."
                );
            }

            return null;
        }

        if (found.Count > 1)
        {
            folder.Add(
                DiagnosticCatalogue.TableTwice,
                null,
                null,
                null,
                table,
                found[0].File,
                found[1].File
            );
        }

        var problems = List(found[0].File);
        tables.Add(new(found[0].File, 0, table, found[0].File));
        return (found[0].File, found[0].Open(problems), problems);
    }

    private ChlorideTableResult? ReadChlorides(DeckDraft draft)
    {
        if (Find("chlorides", draft.ChlorideFile) is not { } found)
        {
            if (coresAreOptional && draft.ChlorideFile is null)
            {
                return new()
                {
                    Cores = [],
                    Problems = [],
                    Extraction = draft.ThresholdExtraction,
                };
            }

            if (draft.ChlorideFile is null)
            {
                List("chlorides.csv")
                    .Add(
                        DiagnosticCatalogue.FileMissing,
                        null,
                        null,
                        null,
                        "chlorides.csv",
                        "a deck has chloride profiles: one row a slice, core,top_in,bottom_in,chloride_lb_per_yd3."
                    );
            }

            unreadable = true;
            return null;
        }

        return found.Source is null
            ? null
            : ChlorideTable.Read(found.Source, DeckFolder.Options(draft), found.Problems);
    }

    private SurveyTable<T>? ReadTable<T>(
        string table,
        string? stated,
        Func<ITableSource, ProblemList, SurveyTable<T>?> read
    ) =>
        Find(table, stated) is { } found
            ? (found.Source is null ? null : read(found.Source, found.Problems))
                ?? new([], false, false)
            : null;

    private void ReportUnread(DeckDraft draft)
    {
        var stated = new[]
        {
            draft.ChlorideFile,
            draft.CoverFile,
            draft.HalfCellFile,
            draft.SoundingFile,
        };
        foreach (var name in files.Values)
        {
            var stem = Path.GetFileNameWithoutExtension(name);
            var ending = Path.GetExtension(name).ToLowerInvariant();
            if (
                inputs.Exists(i => i.Name == name)
                || string.Equals(name, DeckFolder.DeckFile, StringComparison.OrdinalIgnoreCase)
                || stated.Contains(name, StringComparer.OrdinalIgnoreCase)
                || ending is not (".csv" or ".txt" or ".tsv" or ".xls" or ".json")
                || TableNames.Contains(stem.ToLowerInvariant()) && ending == ".csv"
            )
            {
                continue;
            }

            var near = NearestName.Of(stem, [.. TableNames, "deck"]);
            folder.Add(
                DiagnosticCatalogue.FileNotRead,
                null,
                null,
                name,
                name,
                near is null
                    ? "it is none of the files of a deck."
                    : $"did you mean {near}{(near == "deck" ? ".json" : ".csv")}? Rename it, or name it in deck.json."
            );
        }
    }

    private void CheckFrames(
        DeckDraft draft,
        SurveyTable<CoverReading>? cover,
        SurveyTable<HalfCellReading>? halfCell,
        SurveyTable<SoundingArea>? sounding
    )
    {
        if (draft.StartStationM is not null)
        {
            return;
        }

        var tables = new[]
        {
            ("the cover survey", cover?.UsesStations ?? false, cover?.UsesX ?? false),
            ("the half-cell survey", halfCell?.UsesStations ?? false, halfCell?.UsesX ?? false),
            ("the sounding survey", sounding?.UsesStations ?? false, sounding?.UsesX ?? false),
        };
        var stations = tables.FirstOrDefault(t => t.Item2).Item1;
        var x = tables.FirstOrDefault(t => t.Item3).Item1;
        if (stations is not null && x is not null)
        {
            folder.Add(DiagnosticCatalogue.FramesMixed, null, null, null, stations, x);
        }
    }

    private void CheckSurfaces(DeckDraft draft, bool hasCover)
    {
        if (!draft.WearsOverlay)
        {
            return;
        }

        var problems = lists.Find(l => l.File == DeckFolder.DeckFile)!;
        if (draft.DepthsFrom is null)
        {
            problems.Add(
                DiagnosticCatalogue.OverlaySurfaceUnsaid,
                null,
                "chlorides.depthsFrom",
                null,
                "chlorides.depthsFrom",
                "the depths of the cores"
            );
        }

        if (draft.CoversFrom is null && (hasCover || draft.Deck?.StatedCoverMm is not null))
        {
            problems.Add(
                DiagnosticCatalogue.OverlaySurfaceUnsaid,
                null,
                "cover.measuredFrom",
                null,
                "cover.measuredFrom",
                "covers"
            );
        }
    }

    private Deck Assemble(
        DeckDraft draft,
        Deck started,
        ChlorideTableResult chlorides,
        SurveyTable<CoverReading>? cover,
        SurveyTable<HalfCellReading>? halfCell,
        SurveyTable<SoundingArea>? sounding
    )
    {
        var extraction = chlorides.Extraction;
        CheckDepths(started, chlorides.Cores);
        var soundings = sounding?.Rows ?? [];
        var sounded = soundings.Sum(s => s.AreaM2);
        if (sounded > 1.001 * started.AreaM2)
        {
            folder.Add(
                DiagnosticCatalogue.AreasExceedDeck,
                null,
                null,
                null,
                Round(sounded),
                Round(started.AreaM2)
            );
        }

        CheckPlaces(started, chlorides.Cores, cover?.Rows ?? [], halfCell?.Rows ?? []);
        return started with
        {
            Extraction = extraction,
            Cores = chlorides.Cores,
            Covers = cover?.Rows ?? [],
            HalfCells = halfCell?.Rows ?? [],
            Soundings = soundings,
            Assumptions = [.. draft.Assumptions],
            Inputs = [.. inputs],
            StatedFields = [.. draft.StatedFields, .. tables],
        };
    }

    private void CheckExtraction(ChlorideExtraction extraction, DeckDraft draft)
    {
        var threshold = draft.ThresholdExtraction;
        if (
            extraction != ChlorideExtraction.NotStated
            && threshold != ChlorideExtraction.NotStated
            && extraction != threshold
        )
        {
            lists
                .Find(l => l.File == DeckFolder.DeckFile)!
                .Add(
                    DiagnosticCatalogue.ExtractionMixed,
                    draft.ThresholdRow,
                    "threshold.extraction",
                    null,
                    "The threshold",
                    threshold == ChlorideExtraction.AcidSoluble ? "acid-soluble" : "water-soluble",
                    "the cores' chloride",
                    extraction == ChlorideExtraction.AcidSoluble ? "acid-soluble" : "water-soluble"
                );
        }

        if (extraction == ChlorideExtraction.NotStated || threshold == ChlorideExtraction.NotStated)
        {
            var (subject, other) =
                extraction == ChlorideExtraction.NotStated
                    ? ("The chloride of the cores (chlorides.extraction)", "the threshold's")
                    : ("The threshold (threshold.extraction)", "the cores'");
            folder.Add(DiagnosticCatalogue.ExtractionUnsaid, null, null, null, subject, other);
            draft.Assumptions.Add(
                new(
                    "extraction of the chloride",
                    "cores and threshold are taken to be of one extraction",
                    "default of the deck folder"
                )
            );
        }
    }

    private void CheckDepths(Deck deck, ImmutableArray<CoreProfile> cores)
    {
        var deepest =
            deck.Thickness.Millimetres
            + (
                deck.ChlorideDepthsFrom == MeasuringSurface.PresentSurface
                    ? deck.ExistingOverlay?.Thickness.Millimetres ?? 0
                    : 0
            );
        foreach (var core in cores)
        {
            // One millimetre for the rounding between inches and millimetres.
            if (core.Slices.Max(s => s.Bottom.Millimetres) is var bottom && bottom > deepest + 1)
            {
                folder.Add(
                    DiagnosticCatalogue.SliceBeyondSlab,
                    null,
                    null,
                    null,
                    core.Core,
                    bottom,
                    deepest
                );
            }
        }
    }

    private void CheckPlaces(
        Deck deck,
        ImmutableArray<CoreProfile> cores,
        ImmutableArray<CoverReading> covers,
        ImmutableArray<HalfCellReading> nodes
    )
    {
        if (deck.LengthM is not { } length || deck.WidthM is not { } width)
        {
            return;
        }

        void Check(string what, double? x, double? y)
        {
            // A foot of tolerance: readings at the edge are rounded.
            if (
                x is { } a
                && y is { } b
                && (a < -0.5 || a > length + 0.5 || b < -0.5 || b > width + 0.5)
            )
            {
                folder.Add(
                    DiagnosticCatalogue.PlaceOutside,
                    null,
                    null,
                    null,
                    what,
                    Round(a),
                    Round(b),
                    Round(length),
                    Round(width)
                );
            }
        }

        foreach (var core in cores)
        {
            Check($"Core {core.Core}", core.X, core.Y);
        }

        foreach (var cover in covers)
        {
            Check($"The cover of row {cover.Row}", cover.X, cover.Y);
        }

        foreach (var node in nodes)
        {
            Check($"The half-cell node of row {node.Row}", node.X, node.Y);
        }
    }

    private static string Round(double value) => value.ToString("G4", CultureInfo.InvariantCulture);
}
