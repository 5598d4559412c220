using System.Diagnostics.CodeAnalysis;

namespace DeckLife.Quantities;

/// <summary>A unit of potential together with the electrode it was measured against.</summary>
/// <param name="Unit">mV or V.</param>
/// <param name="Electrode">The reference electrode.</param>
public sealed record PotentialUnit(Unit Unit, ReferenceElectrode Electrode)
{
    /// <summary>Converts a reading to the potential against CSE.</summary>
    /// <param name="reading">The reading in <see cref="Unit"/> against <see cref="Electrode"/>.</param>
    public Potential ToPotential(double reading) =>
        Potential.FromMillivoltsCse((reading * Unit.Factor) + Electrode.MillivoltsAgainstCse);

    /// <summary>Finds the unit and electrode that a text names: <c>mV CSE</c>, <c>mv_vs_cse</c>, <c>V (SCE)</c>.</summary>
    /// <param name="text">The text.</param>
    /// <param name="stated">The electrode that the survey states, with its potential against CSE.</param>
    /// <param name="unit">The unit and electrode.</param>
    /// <param name="problem">What is wrong and what is allowed.</param>
    public static bool TryFind(
        string text,
        ReferenceElectrode? stated,
        [NotNullWhen(true)] out PotentialUnit? unit,
        [NotNullWhen(false)] out string? problem
    )
    {
        ArgumentNullException.ThrowIfNull(text);
        unit = null;
        var words = text.Replace('_', ' ')
            .Split([' ', '(', ')', '[', ']', ',', '\u00A0'], StringSplitOptions.RemoveEmptyEntries)
            .Where(w =>
                w.ToUpperInvariant() is not ("VS" or "VS." or "VERSUS" or "AGAINST" or "TO")
            )
            .ToArray();
        if (words.Length == 0)
        {
            problem =
                "the unit and the reference electrode are missing: write mV CSE, V CSE, or another electrode";
            return false;
        }

        if (!Units.TryFind(Dimension.Potential, words[0], out var measure, out problem))
        {
            return false;
        }

        var electrode = string.Join(' ', words.Skip(1));
        if (electrode.Length == 0)
        {
            if (stated is null)
            {
                problem =
                    "the reference electrode is missing: write mV CSE, or state the electrode";
                return false;
            }

            unit = new(measure, stated);
            return true;
        }

        if (ReferenceElectrode.CopperSulfate.IsNamed(electrode))
        {
            if (stated is not null && !stated.IsNamed("CSE"))
            {
                problem =
                    $"two electrodes are stated, {ReferenceElectrode.Display(electrode)} and {stated.Name}: keep one";
                return false;
            }

            unit = new(measure, ReferenceElectrode.CopperSulfate);
            return true;
        }

        if (stated is not null && stated.IsNamed(electrode))
        {
            unit = new(measure, stated);
            return true;
        }

        problem = stated is null
            ? $"the potential of the electrode {ReferenceElectrode.Display(electrode)} against CSE is not stated, and it depends on its filling and "
                + "temperature: take it from its certificate and state it"
            : $"two electrodes are stated, {ReferenceElectrode.Display(electrode)} and {stated.Name}: keep one";
        return false;
    }
}
