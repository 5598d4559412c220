using System.Globalization;
using DeckLife.Diagnostics;
using DeckLife.Quantities;

namespace DeckLife.Cli.Fitting;

/// <summary>Reads the options of <c>fit</c> and collects every problem before anything is computed.</summary>
internal sealed class FitOptionReader
{
    /// <summary>What was wrong.</summary>
    public List<Diagnostic> Problems { get; } = [];

    /// <summary>Reports one option.</summary>
    public void Report(string option, string value, string why) =>
        Problems.Add(
            DiagnosticCatalogue.FitOptionUnusable.With(option, value, why) with
            {
                Column = option,
                Value = value,
            }
        );

    /// <summary>One of a list of words.</summary>
    public string Choice(string option, string value, string[] allowed)
    {
        if (!allowed.Contains(value, StringComparer.Ordinal))
        {
            Report(option, value, "allowed are " + string.Join(", ", allowed));
        }

        return value;
    }

    /// <summary>A whole number, at least 0.</summary>
    public int? Count(string option, string? value)
    {
        if (value is null)
        {
            return null;
        }

        if (int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var count))
        {
            return count;
        }

        Report(option, value, "write a whole number, 0 or more");
        return null;
    }

    /// <summary>An age above 0.</summary>
    public Age? PositiveAge(string option, string? value)
    {
        if (value is null)
        {
            return null;
        }

        if (!Age.TryParse(value, out var age, out var problem))
        {
            Report(option, value, problem);
            return null;
        }

        if (!(age.Years > 0))
        {
            Report(option, value, "the age must be above 0");
            return null;
        }

        return age;
    }

    /// <summary>A content, at least 0.</summary>
    public ChlorideContent? Background(string option, string? value)
    {
        if (value is null)
        {
            return null;
        }

        if (ChlorideContent.TryParse(value, out var content, out var problem))
        {
            return content;
        }

        Report(option, value, problem);
        return null;
    }

    /// <summary>A mass by volume of concrete, above 0.</summary>
    public ChlorideContent? PositiveContent(string option, string? value)
    {
        var content = Background(option, value);
        if (content is { KilogramsPerCubicMetre: 0 })
        {
            Report(option, value!, "it must be above 0");
            return null;
        }

        return content;
    }

    /// <summary>A diffusion coefficient.</summary>
    public DiffusionCoefficient? Diffusion(string option, string? value)
    {
        if (value is null)
        {
            return null;
        }

        if (DiffusionCoefficient.TryParse(value, out var d, out var problem))
        {
            return d;
        }

        Report(option, value, problem);
        return null;
    }
}
