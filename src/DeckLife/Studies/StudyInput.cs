using DeckLife.Numerics.Distributions;

namespace DeckLife.Studies;

/// <summary>One quantity of a study: a fixed value or a distribution, in the canonical unit.</summary>
/// <param name="Variable">The quantity.</param>
/// <param name="Fixed">Its value where it is not drawn.</param>
/// <param name="Distribution">Its distribution; absent: it is fixed.</param>
public sealed record StudyInput(StudyVariable Variable, double Fixed, Distribution? Distribution)
{
    /// <summary>Its name in tables.</summary>
    public string Name => StudyVariableInfo.Of(Variable).Name;

    /// <summary>Its canonical unit.</summary>
    public string Unit => StudyVariableInfo.Of(Variable).Unit;
}
