using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Quantities;

namespace DeckLife.Data.Tables;

/// <summary>Finds the exposure age of a core: its own age, else its dates, else the deck's.</summary>
internal static class CoreAge
{
    public static Age? Of(CoreBuilder core, ChlorideTableOptions options, ProblemList problems)
    {
        var stated = core.Fact<double>("the age");
        var sampled = core.Fact<DateOnly>("the sampling date");
        var firstSalt = core.Fact<DateOnly>("the first salt") ?? options.FirstSalt;
        double? dated = null;
        if (sampled is { } end && firstSalt is { } start)
        {
            dated = (end.DayNumber - start.DayNumber) / UnitFactors.DaysPerYear;
            if (dated <= 0)
            {
                problems.Add(
                    DiagnosticCatalogue.ValueImpossible,
                    core.FirstLine,
                    "sampled",
                    null,
                    "sampled",
                    end.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                    $"core {core.Name} was sampled on or before its first salt, {start.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}"
                );
                return null;
            }
        }

        if (stated is { } years)
        {
            if (dated is { } other && Math.Abs(other - years) > 1)
            {
                problems.Add(
                    DiagnosticCatalogue.CoreContradicts,
                    core.FirstLine,
                    "age",
                    null,
                    core.Name,
                    "the age",
                    string.Create(CultureInfo.InvariantCulture, $"{years:G4} yr"),
                    string.Create(CultureInfo.InvariantCulture, $"{other:G4} yr from its dates"),
                    core.FirstLine
                );
                return null;
            }

            return Age.FromYears(years);
        }

        if (dated is { } byDates)
        {
            return Age.FromYears(byDates);
        }

        if (options.ExposureAge is { } general)
        {
            return general;
        }

        if (core.Name.Length > 0 && !options.AgeIsReported)
        {
            problems.Add(
                DiagnosticCatalogue.AgeMissing,
                core.FirstLine,
                null,
                null,
                core.Name,
                options.AgeHint
            );
        }

        return null;
    }
}
