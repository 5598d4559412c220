using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using DeckLife.Population;
using DeckLife.Quantities;

namespace DeckLife.Materials;

/// <summary>What a publication says about D within each class of penetrability; the user states it, with the spread within the class.</summary>
public sealed record ClassRelation
{
    /// <summary>Author, title, year, table: who says so.</summary>
    public required string Citation { get; init; }

    /// <summary>D [mm²/yr] in each class that the publication covers, each with a spread above 0.</summary>
    public required ImmutableDictionary<
        ChloridePenetrability,
        UncertainValue
    > Diffusion { get; init; }

    /// <summary>Age of the concrete at which it holds.</summary>
    public required Age ReferenceAge { get; init; }

    /// <summary>D of a class, with the spread within it.</summary>
    /// <param name="penetrability">The class.</param>
    /// <param name="value">D [mm²/yr] at <see cref="ReferenceAge"/>.</param>
    /// <param name="problem">Why there is none.</param>
    public bool TryDiffusion(
        ChloridePenetrability penetrability,
        out UncertainValue value,
        [NotNullWhen(false)] out string? problem
    )
    {
        value = default;
        if (string.IsNullOrWhiteSpace(Citation))
        {
            problem = "the relation cites nothing: say who published it";
            return false;
        }

        if (!Diffusion.TryGetValue(penetrability, out var stated))
        {
            problem = $"the relation says nothing about the class {penetrability}";
            return false;
        }

        if (
            !(stated.Mean > 0)
            || !double.IsFinite(stated.Mean)
            || !(stated.CoefficientOfVariation > 0)
            || !double.IsFinite(stated.CoefficientOfVariation)
        )
        {
            problem =
                $"the relation's D in the class {penetrability} needs a mean above 0 and a spread above 0: a class is wide";
            return false;
        }

        value = stated;
        problem = null;
        return true;
    }
}
