using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace DeckLife.Quantities;

/// <summary>A chloride content as a laboratory or a specification states it: number, unit with its basis, extraction.</summary>
public readonly record struct StatedChloride
{
    /// <summary>Makes a stated content.</summary>
    /// <param name="value">The number in <paramref name="unit"/>: finite, not negative, for a share at most the whole.</param>
    /// <param name="unit">A unit of <see cref="Dimension.Chloride"/>.</param>
    /// <param name="extraction">How it was extracted.</param>
    /// <exception cref="ArgumentOutOfRangeException">The number is not finite or out of range.</exception>
    /// <exception cref="ArgumentException">The unit does not measure chloride.</exception>
    public StatedChloride(double value, Unit unit, ChlorideExtraction extraction)
    {
        ArgumentNullException.ThrowIfNull(unit);
        if (unit.Dimension != Dimension.Chloride)
        {
            throw new ArgumentException($"{unit.Name} does not measure chloride.", nameof(unit));
        }

        var share = unit.Basis != ChlorideBasis.ConcreteVolume;
        if (!double.IsFinite(value) || value < 0 || (share && value * unit.Factor > 1))
        {
            throw new ArgumentOutOfRangeException(
                nameof(value),
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"Chloride content {value:G6} {unit.Name} is not allowed: it must be finite and not negative{(share ? ", at most the whole" : "")}."
                )
            );
        }

        Value = value;
        Unit = unit;
        Extraction = extraction;
    }

    /// <summary>The number in <see cref="Unit"/>.</summary>
    public double Value { get; }

    /// <summary>The unit.</summary>
    public Unit Unit { get; }

    /// <summary>How it was extracted.</summary>
    public ChlorideExtraction Extraction { get; }

    /// <summary>What it is a share of.</summary>
    public ChlorideBasis Basis => Unit.Basis;

    /// <summary>Converts to the content by volume of concrete, or says what is missing.</summary>
    /// <param name="mix">What is known of the concrete.</param>
    /// <param name="content">The content [kg/m³].</param>
    /// <param name="problem">What is missing and where to give it.</param>
    /// <remarks>
    /// Equation: content = share of concrete × density, or share of binder × binder content. Source: definition of the bases.
    /// </remarks>
    public bool TryToContent(
        ConcreteMix mix,
        out ChlorideContent content,
        [NotNullWhen(false)] out string? problem
    )
    {
        content = default;
        problem = null;
        double factor;
        switch (Basis)
        {
            case ChlorideBasis.ConcreteMass:
                if (mix.DensityKgPerM3 is not { } density)
                {
                    problem =
                        $"'{this}' is a share of the concrete's mass: the density of the concrete is missing.";
                    return false;
                }

                factor = Unit.Factor * density;
                break;
            case ChlorideBasis.BinderMass:
                if (mix.BinderContentKgPerM3 is not { } binder)
                {
                    problem =
                        $"'{this}' is a share of the binder's mass: the binder content of the concrete is missing.";
                    return false;
                }

                factor = Unit.Factor * binder;
                break;
            default:
                factor = Unit.Factor;
                break;
        }

        content = ChlorideContent.FromKilogramsPerCubicMetre(Value * factor);
        return true;
    }

    /// <summary>Converts a content by volume back to the number in a unit.</summary>
    /// <param name="content">The content.</param>
    /// <param name="unit">The unit to state it in.</param>
    /// <param name="mix">What is known of the concrete.</param>
    /// <param name="extraction">How it was extracted.</param>
    /// <exception cref="InvalidOperationException">The basis needs a density or binder content that is not given.</exception>
    public static StatedChloride FromContent(
        ChlorideContent content,
        Unit unit,
        ConcreteMix mix,
        ChlorideExtraction extraction
    )
    {
        ArgumentNullException.ThrowIfNull(unit);
        var one = new StatedChloride(1, unit, extraction);
        return
            one.TryToContent(mix, out var each, out var problem) && each.KilogramsPerCubicMetre > 0
            ? new(content.KilogramsPerCubicMetre / each.KilogramsPerCubicMetre, unit, extraction)
            : throw new InvalidOperationException(problem ?? "The density or binder content is 0.");
    }

    /// <summary>The number with its unit, in the invariant culture.</summary>
    public override string ToString() =>
        string.Create(CultureInfo.InvariantCulture, $"{Value:R} {Unit?.Name}");
}
