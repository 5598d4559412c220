using System.Collections.Immutable;
using DeckLife.Diagnostics;
using DeckLife.Materials;
using DeckLife.Population;
using DeckLife.Quantities;
using static System.FormattableString;

namespace DeckLife.Data.Json;

/// <summary>Laboratory tests of materials in deck.json, in place of a diffusion coefficient.</summary>
internal sealed partial class DeckJsonReader
{
    private static readonly string[] TestKinds = ["bulkDiffusion", "migration", "indicator"];

    /// <summary>The coefficient at the reference age by a test.</summary>
    private UncertainValue? ReadTest(
        JsonItem? diffusion,
        string at,
        string? material,
        double exponent,
        Age? reference
    )
    {
        var path = at + ".test";
        if (JsonValues.Object(diffusion, "test") is not { } test || reference is not { } age)
        {
            return null;
        }

        if (TestKinds.Count(k => test[k] is not null) != 1)
        {
            problems.Add(
                DiagnosticCatalogue.OneOfTwo,
                test.Line,
                path,
                null,
                path,
                "bulkDiffusion",
                "migration",
                "or indicator, and only one of them: each is brought to the coefficient in its own way"
            );
            return null;
        }

        var stated = values.Fraction(
            test,
            path,
            "cov",
            0,
            3,
            "a coefficient of variation lies between 0 and 3"
        );
        var (value, words) =
            test["bulkDiffusion"] is { } bulk ? Bulk(bulk, path, stated, exponent, age)
            : test["migration"] is { } migration ? Migration(migration, path, stated, exponent, age)
            : Indicator(test["indicator"]!, path, exponent, age);
        if (value is not { } found)
        {
            return null;
        }

        if (!(found.Mean is >= LeastCoefficient and <= MostCoefficient))
        {
            Refuse(
                test,
                path,
                Invariant(
                    $"it gives {found.Mean:G4} mm2/yr at the reference age; {CoefficientRange}"
                )
            );
            return null;
        }

        Note(
            $"diffusion coefficient of {material}",
            Invariant(
                $"{words}: {found.Mean:G4} mm2/yr at {age.Days:G4} d, coefficient of variation {found.CoefficientOfVariation:0.##}; laboratory specimens, not the placed overlay"
            )
        );
        return found;
    }

    private (UncertainValue? Value, string Words) Bulk(
        JsonItem item,
        string test,
        double? stated,
        double exponent,
        Age reference
    )
    {
        var path = test + ".bulkDiffusion";
        var method = JsonValues.Text(item, "method");
        var start = Years(
            item,
            path,
            "ageAtStart",
            1e-3,
            50,
            "it must lie between a day and 50 yr"
        );
        var immersion = Years(
            item,
            path,
            "immersion",
            1e-3,
            10,
            "it must lie between a day and 10 yr"
        );
        var specimens = JsonValues
            .Objects(item, path, "specimens")
            .Select(s => (s.Item, Coefficient: Coefficient(s.Item, s.Path, "coefficient")))
            .ToArray();
        if (
            method is null
            || start is not { } from
            || immersion is not { } length
            || specimens.Any(s => s.Coefficient is null)
        )
        {
            return default;
        }

        // What the standards ask of the test, as far as it is written down: said, not refused.
        if (BulkDiffusionResult.ConcernOfImmersion(length) is { } concern)
        {
            Note("a bulk diffusion test", Invariant($"{method}: {concern}"));
        }

        return Combined(
            item,
            path,
            [.. specimens.Select(s => s.Coefficient!.Value)],
            stated,
            CoefficientAge.OverImmersion(from, length, reference, exponent),
            Invariant($"{method}, {specimens.Length} specimens")
        );
    }

    private (UncertainValue? Value, string Words) Migration(
        JsonItem item,
        string test,
        double? stated,
        double exponent,
        Age reference
    )
    {
        var path = test + ".migration";
        var citation = JsonValues.Text(item, "citation");
        var age = Years(item, path, "age", 1e-3, 50, "it must lie between a day and 50 yr");
        var isFull = JsonValues.Text(item, "form") == "full";
        var found = ImmutableArray.CreateBuilder<double>();
        var isComplete = true;
        foreach (var (specimen, at) in JsonValues.Objects(item, path, "specimens"))
        {
            if (MigrationCoefficient(specimen, at, isFull) is { } coefficient)
            {
                found.Add(coefficient);
            }
            else
            {
                isComplete = false;
            }
        }

        if (!isComplete || age is not { } moment || citation is null)
        {
            return default;
        }

        if (string.IsNullOrWhiteSpace(citation))
        {
            Refuse(
                item,
                path,
                "a migration coefficient stands for a diffusion coefficient only where a publication says so: cite it"
            );
            return default;
        }

        return Combined(
            item,
            path,
            found.ToImmutable(),
            stated,
            CoefficientAge.AtMoment(moment, reference, exponent),
            Invariant(
                $"NT Build 492, {(isFull ? "full" : "simplified")} expression, {found.Count} specimens; taken as a diffusion coefficient after {citation}"
            )
        );
    }

    private double? MigrationCoefficient(JsonItem item, string path, bool isFull)
    {
        var volts = values.Number(item, path, "appliedVolts", 0, 1e3, "a voltage is up to 100 V");
        var duration = Years(
            item,
            path,
            "duration",
            1e-4,
            0.25,
            "it must lie between an hour and 90 d"
        );
        var thickness = Length(
            item,
            path,
            "thickness",
            1,
            1000,
            "a specimen is 10 to 200 mm thick"
        );
        var penetration = Length(item, path, "penetration", 0, 1000, "it lies within the specimen");
        if (
            JsonValues.Text(item, "temperature") is not { } degrees
            || volts is not { } v
            || duration is not { } t
            || thickness is not { } l
            || penetration is not { } x
        )
        {
            return null;
        }

        if (!QuantityText.TryParseTemperature(degrees, out var temperature, out var problem))
        {
            problems.Add(
                DiagnosticCatalogue.QuantityUnreadable,
                item["temperature"]!.Line,
                path + ".temperature",
                degrees,
                path + ".temperature",
                problem
            );
            return null;
        }

        const double HoursPerDay = 24;
        var reading = new RapidMigrationTest
        {
            AppliedVoltageV = v,
            TemperatureC = temperature.Celsius,
            ThicknessMm = l,
            PenetrationMm = x,
            DurationH = t.Days * HoursPerDay,
        };
        reading = reading with
        {
            CatholyteMolPerL =
                values.Number(
                    item,
                    path,
                    "catholyteMolPerL",
                    0.01,
                    10,
                    "it lies between 0.01 and 10 mol/L"
                ) ?? reading.CatholyteMolPerL,
            ColourChangeMolPerL =
                values.Number(
                    item,
                    path,
                    "colourChangeMolPerL",
                    1e-3,
                    1,
                    "it lies between 0.001 and 1 mol/L"
                ) ?? reading.ColourChangeMolPerL,
        };
        if (
            isFull
                ? reading.TryFull(out var coefficient, out problem)
                : reading.TrySimplified(out coefficient, out problem)
        )
        {
            return coefficient.SquareMillimetresPerYear;
        }

        Refuse(item, path, problem!);
        return null;
    }

    private (UncertainValue? Value, string Words) Indicator(
        JsonItem item,
        string test,
        double exponent,
        Age reference
    )
    {
        var path = test + ".indicator";
        var what = JsonValues.Text(item, "what");
        var read = values.Number(item, path, "value", 0, 1e9, "an indicator is above 0");
        var relation = JsonValues.Object(item, "relation");
        var at = path + ".relation";
        // A median where the indicator is 1, which may be far from any concrete.
        var atOne = values.Measure(
            relation,
            at,
            "coefficientAtOne",
            Dimension.Diffusion,
            1e-15,
            1e15,
            "a coefficient is above 0"
        );
        var age = Years(relation, at, "age", 1e-3, 50, "it must lie between a day and 50 yr");
        double? Number(string key, double least, double most) =>
            values.Number(
                relation,
                at,
                key,
                least,
                most,
                Invariant($"it lies between {least} and {most}")
            );
        if (
            what is null
            || read is not { } value
            || atOne is not { } coefficient
            || age is not { } moment
            || Number("exponent", -10, 10) is not { } power
            || Number("sdOfLn", 0, 5) is not { } sd
            || Number("least", 0, 1e9) is not { } least
            || Number("greatest", 0, 1e9) is not { } greatest
            || JsonValues.Text(relation, "citation") is not { } citation
        )
        {
            return default;
        }

        var stated = new IndicatorRelation
        {
            Citation = citation,
            Indicator = what,
            CoefficientMm2PerYr = coefficient,
            Exponent = power,
            LogStandardDeviation = sd,
            LeastIndicator = least,
            GreatestIndicator = greatest,
            ReferenceAge = moment,
        };
        if (!stated.TryDiffusion(value, out var found, out var problem))
        {
            Refuse(item, path, problem);
            return default;
        }

        return (
            found with
            {
                Mean = found.Mean * CoefficientAge.AtMoment(moment, reference, exponent),
            },
            Invariant($"{what} of {value} by the relation of {citation}")
        );
    }

    private (UncertainValue? Value, string Words) Combined(
        JsonItem item,
        string path,
        ImmutableArray<double> specimens,
        double? stated,
        double factor,
        string words
    )
    {
        if (!SpecimenScatter.TryCombine(specimens, stated, out var value, out var problem))
        {
            Refuse(item, path, problem);
            return default;
        }

        return (value with { Mean = value.Mean * factor }, words);
    }

    private double? Coefficient(JsonItem? item, string path, string key) =>
        values.Measure(
            item,
            path,
            key,
            Dimension.Diffusion,
            LeastCoefficient,
            MostCoefficient,
            CoefficientRange
        );

    private void Note(string subject, string text) =>
        draft.Assumptions.Add(new(subject, text, "the laboratory test in deck.json"));

    private void Refuse(JsonItem item, string path, string problem) =>
        problems.Add(DiagnosticCatalogue.TestGivesNone, item.Line, path, null, path, problem);
}
