using System.Collections.Immutable;
using DeckLife.Data.Folders;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using DeckLife.Fitting;
using DeckLife.Profiles;
using DeckLife.Projection;
using DeckLife.Quantities;
using DeckLife.Reporting.Fitting;

namespace DeckLife.Cli.Fitting;

/// <summary>The cores of a file or folder, the units to print in, and what was found wrong.</summary>
internal sealed record FitInput
{
    /// <summary>The cores.</summary>
    public required ImmutableArray<CoreProfile> Cores { get; init; }

    /// <summary>Errors, warnings and notes.</summary>
    public required ImmutableArray<Diagnostic> Problems { get; init; }

    /// <summary>The units of the input.</summary>
    public FitUnits Units { get; init; } = FitUnits.Canonical;

    /// <summary>How the deck is pooled: as its folder says, so that a fit and a projection rest on the same one.</summary>
    public DeckFitOptions Pooling { get; init; } = new();

    /// <summary>How the cores lie under an overlay that the deck wears; absent: it wears none, or a bare table doesn't say.</summary>
    public FitOverlay? Overlay { get; init; }

    /// <summary>Reads a bare table or a deck folder.</summary>
    public static FitInput Read(string path, FitTableFacts facts) =>
        Directory.Exists(path) ? ReadFolder(path, facts) : ReadTable(path, facts);

    private static FitInput ReadFolder(string path, FitTableFacts facts)
    {
        var stated = facts.Given.ToArray();
        if (stated.Length > 0)
        {
            return new FitInput
            {
                Cores = [],
                Problems =
                [
                    .. stated.Select(option =>
                        DiagnosticCatalogue.FitOptionUnusable.With(
                            option,
                            path,
                            "a deck folder says it in deck.json; the option is for bare tables"
                        ) with
                        {
                            Column = option,
                        }
                    ),
                ],
            };
        }

        var result = DeckFolder.Read(path);
        if (result.Deck is not { } deck)
        {
            return new FitInput { Cores = [], Problems = result.Problems };
        }

        var bare = new FitTableFacts(
            deck.ExposureAge,
            Content(deck.ConcreteDensityKgPerM3),
            Content(deck.BinderContentKgPerM3)
        );
        return new FitInput
        {
            Cores = deck.Cores,
            Problems = result.Problems,
            Overlay = FitOverlay.Of(deck),
            Pooling = DeckAnalysis.OptionsFor(deck),
            Units = UnitsOfTable(Path.Combine(path, "chlorides.csv"), bare),
        };
    }

    // The folder's reader converts to canonical units; the heads of the table say which ones to print. A workbook's are printed canonical.
    private static FitUnits UnitsOfTable(string path, FitTableFacts facts)
    {
        if (!File.Exists(path))
        {
            return FitUnits.Canonical;
        }

        var table = ChlorideTable.Read(path, Options(facts));
        return UnitsOf(table.ContentUnit, table.DepthUnit, facts);
    }

    private static ChlorideTableOptions Options(FitTableFacts facts) =>
        new()
        {
            ExposureAge = facts.Age,
            Mix = new ConcreteMix(
                facts.Density?.KilogramsPerCubicMetre,
                facts.Binder?.KilogramsPerCubicMetre
            ),
        };

    private static ChlorideContent? Content(double? kgPerM3) =>
        kgPerM3 is { } value ? ChlorideContent.FromKilogramsPerCubicMetre(value) : null;

    private static FitInput ReadTable(string path, FitTableFacts facts)
    {
        var result = ChlorideTable.Read(path, Options(facts));
        return new FitInput
        {
            Cores = result.Cores,
            Problems = result.Problems,
            Units = UnitsOf(result.ContentUnit, result.DepthUnit, facts),
        };
    }

    // D in the square of the depths' unit; contents in the file's unit where it has one.
    private static FitUnits UnitsOf(Unit? content, Unit? depth, FitTableFacts facts)
    {
        var factor = content?.Basis switch
        {
            ChlorideBasis.ConcreteVolume => content.Factor,
            ChlorideBasis.ConcreteMass when facts.Density is { } d => content.Factor
                * d.KilogramsPerCubicMetre,
            ChlorideBasis.BinderMass when facts.Binder is { } b => content.Factor
                * b.KilogramsPerCubicMetre,
            _ => 0,
        };
        var imperial = depth is { Name: "in" };
        return new FitUnits(
            factor > 0 ? content!.Name : "kg/m3",
            factor > 0 ? factor : 1,
            imperial ? "in2/yr" : "mm2/yr",
            imperial ? UnitFactors.SquareMillimetresPerSquareInch : 1
        );
    }
}
