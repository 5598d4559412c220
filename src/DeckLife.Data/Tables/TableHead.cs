using System.Text.RegularExpressions;
using DeckLife.Quantities;

namespace DeckLife.Data.Tables;

/// <summary>Reads column heads: the name, the unit, the extraction.</summary>
internal static partial class TableHead
{
    /// <summary>What a head says.</summary>
    /// <param name="Spec">The known column.</param>
    /// <param name="UnitText">The unit as written; empty: none.</param>
    /// <param name="Extraction">Acid- or water-soluble, where the head says so.</param>
    /// <param name="UnitProblem">Why the unit is not one.</param>
    public sealed record Meaning(
        ColumnSpec Spec,
        string UnitText,
        ChlorideExtraction Extraction,
        string? UnitProblem
    );

    /// <summary>Finds the meaning of a head, or none.</summary>
    public static Meaning? Read(
        string head,
        IReadOnlyList<ColumnSpec> specs,
        ReferenceElectrode? electrode
    )
    {
        var text = Spaces().Replace(NumberText.Clean(head), " ");
        if (text.Length is 0 or > 120)
        {
            return null;
        }

        var extraction = ChlorideExtraction.NotStated;
        if (Solubility().Match(text) is { Success: true } soluble)
        {
            extraction =
                char.ToLowerInvariant(soluble.Groups["kind"].Value[0]) == 'a'
                    ? ChlorideExtraction.AcidSoluble
                    : ChlorideExtraction.WaterSoluble;
            text = Solubility().Replace(text, " ").Trim(' ', '_', ',');
        }

        if (Bracketed().Match(text) is { Success: true } bracketed)
        {
            return Exact(bracketed, specs, electrode, extraction);
        }

        if (
            text.Contains(',', StringComparison.Ordinal)
            && AfterComma().Match(text) is { Success: true } comma
        )
        {
            return Exact(comma, specs, electrode, extraction);
        }

        var snake = Snake(text);
        Meaning? best = null;
        var longest = 0;
        foreach (var spec in specs)
        {
            foreach (var name in spec.Names)
            {
                if (name.Length <= longest || !snake.StartsWith(name, StringComparison.Ordinal))
                {
                    continue;
                }

                var rest = snake[name.Length..];
                if (rest.Length == 0)
                {
                    best = new(spec, "", extraction, null);
                    longest = name.Length;
                }
                else if (rest[0] == '_' && HasUnit(spec.Kind))
                {
                    var unit = rest[1..];
                    best = new(spec, unit, extraction, UnitProblem(spec, unit, electrode));
                    longest = name.Length;
                }
            }
        }

        return best;
    }

    public static bool HasUnit(ColumnKind kind) =>
        kind is ColumnKind.Quantity or ColumnKind.Station or ColumnKind.Corners;

    /// <summary>Lower case, words joined by single underscores.</summary>
    public static string Snake(string text)
    {
        var builder = new System.Text.StringBuilder(text.Length);
        foreach (
            var c in text.Replace("²", "2", StringComparison.Ordinal)
                .Replace("³", "3", StringComparison.Ordinal)
        )
        {
            if (char.IsLetterOrDigit(c) || c is '%' or '"' or '\'' or '/')
            {
                builder.Append(char.ToLowerInvariant(c));
            }
            else if (builder.Length > 0 && builder[^1] != '_')
            {
                builder.Append('_');
            }
        }

        return builder.ToString().Trim('_');
    }

    private static Meaning? Exact(
        Match match,
        IReadOnlyList<ColumnSpec> specs,
        ReferenceElectrode? electrode,
        ChlorideExtraction extraction
    )
    {
        var name = Snake(match.Groups["name"].Value);
        var unit = match.Groups["unit"].Value.Trim();
        var spec = specs.FirstOrDefault(s => s.Names.Contains(name, StringComparer.Ordinal));
        return spec is null ? null
            : HasUnit(spec.Kind) ? new(spec, unit, extraction, UnitProblem(spec, unit, electrode))
            : new(spec, "", extraction, null);
    }

    private static string? UnitProblem(ColumnSpec spec, string unit, ReferenceElectrode? electrode)
    {
        string? problem;
        if (spec.Dimension == Dimension.Potential)
        {
            return PotentialUnit.TryFind(unit, electrode, out _, out problem) ? null : problem;
        }

        return Units.TryFind(spec.Dimension, unit, out _, out problem) ? null : problem;
    }

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();

    [GeneratedRegex(
        @"[\(\[]?(?<!\p{L})(?<kind>acid|water)[-_ ]?sol(?:uble)?(?!\p{L})[\)\]]?,?",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant
    )]
    private static partial Regex Solubility();

    [GeneratedRegex(@"^(?<name>[^\(\[]+?)[\s_]*[\(\[](?<unit>[^\)\]]*)[\)\]]$")]
    private static partial Regex Bracketed();

    [GeneratedRegex(@"^(?<name>[^,]+?)\s*,\s*(?<unit>.+)$")]
    private static partial Regex AfterComma();
}
