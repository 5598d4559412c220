using System.Collections.Immutable;
using DeckLife.Data.Tables;
using DeckLife.Diagnostics;
using DeckLife.Profiles;
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

    /// <summary>Reads a bare table or a deck folder.</summary>
    public static FitInput Read(string path, FitTableFacts facts) => ReadTable(path, facts);

    private static FitInput ReadTable(string path, FitTableFacts facts)
    {
        var result = ChlorideTable.Read(
            path,
            new ChlorideTableOptions
            {
                ExposureAge = facts.Age,
                Mix = new ConcreteMix(
                    facts.Density?.KilogramsPerCubicMetre,
                    facts.Binder?.KilogramsPerCubicMetre
                ),
            }
        );
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
