using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using DeckLife.Population;
using DeckLife.Quantities;
using static System.FormattableString;

namespace DeckLife.Materials;

/// <summary>What a bulk diffusion test of one specimen found, as the laboratory reports it.</summary>
/// <remarks>
/// Tests such as NT Build 443, ASTM C1556 and EN 12390-11: a profile after immersion, to which Fick's second law is fitted without
/// the layer at the surface. The coefficient is an apparent one over the immersion.
/// </remarks>
public sealed record BulkDiffusionResult
{
    /// <summary>The test method, with its year.</summary>
    public required string Method { get; init; }

    /// <summary>Apparent diffusion coefficient over the immersion.</summary>
    public required DiffusionCoefficient Coefficient { get; init; }

    /// <summary>Fitted surface content.</summary>
    public required ChlorideContent SurfaceContent { get; init; }

    /// <summary>Content before immersion.</summary>
    public required ChlorideContent InitialContent { get; init; }

    /// <summary>Age at the start of the immersion.</summary>
    public required Age AgeAtStart { get; init; }

    /// <summary>How long the specimen lay in the solution.</summary>
    public required Age Immersion { get; init; }

    /// <summary>Temperature of the solution.</summary>
    public required Temperature SolutionTemperature { get; init; }

    /// <summary>Points in the fit, without the layer at the surface.</summary>
    public required int PointsFitted { get; init; }

    /// <summary>What should be known before the value is used; empty where nothing is against it.</summary>
    /// <remarks>At least 35 days and six points beside the surface layer are what ASTM C1556 and NT Build 443 ask for (from memory).</remarks>
    public ImmutableArray<string> Concerns
    {
        get
        {
            var concerns = ImmutableArray.CreateBuilder<string>();
            if (ConcernOfImmersion(Immersion) is { } concern)
            {
                concerns.Add(concern);
            }

            if (PointsFitted < 6)
            {
                concerns.Add(
                    Invariant(
                        $"{PointsFitted} points in the fit beside the surface layer, fewer than 6"
                    )
                );
            }

            if (SurfaceContent <= InitialContent)
            {
                concerns.Add("surface content not above the content before immersion");
            }

            return concerns.ToImmutable();
        }
    }

    /// <summary>What is against an immersion of so long; nothing where it is long enough.</summary>
    /// <param name="immersion">Its length.</param>
    /// <remarks>At least 35 days: ASTM C1556 and NT Build 443 (from memory).</remarks>
    public static string? ConcernOfImmersion(Age immersion) =>
        immersion.Days < 35 - 1e-9
            ? Invariant($"immersed for {immersion.Days:0.#} d, less than 35 d")
            : null;

    /// <summary>Mean and scatter over specimens of one material tested alike.</summary>
    /// <param name="specimens">At least two results by the same method, age and immersion.</param>
    /// <param name="value">D [mm²/yr], lognormal, with the specimens' own scatter.</param>
    /// <param name="problem">Why they give none.</param>
    /// <remarks>
    /// The scatter is that within one laboratory and one batch. How far a placed overlay departs from laboratory specimens is not in it.
    /// </remarks>
    public static bool TryCombine(
        IReadOnlyList<BulkDiffusionResult> specimens,
        out UncertainValue value,
        [NotNullWhen(false)] out string? problem
    )
    {
        ArgumentNullException.ThrowIfNull(specimens);
        value = default;
        if (specimens.Count == 0)
        {
            problem = "there is no specimen";
            return false;
        }

        var first = specimens[0];
        if (
            specimens.Any(s =>
                s.Method != first.Method
                || s.AgeAtStart != first.AgeAtStart
                || s.Immersion != first.Immersion
            )
        )
        {
            problem =
                "specimens of different methods, ages or immersions are not one sample: combine those tested alike";
            return false;
        }

        return SpecimenScatter.TryCombine(
            [.. specimens.Select(s => s.Coefficient.SquareMillimetresPerYear)],
            null,
            out value,
            out problem
        );
    }
}
