using DeckLife.Numerics.Distributions;

namespace DeckLife.Studies;

/// <summary>One quantity of a study: a fixed value or a distribution, in the canonical unit.</summary>
/// <param name="Variable">The quantity.</param>
/// <param name="Fixed">Its value where it is not drawn.</param>
/// <param name="Distribution">Its distribution; absent: it is fixed.</param>
public sealed record StudyInput(StudyVariable Variable, double Fixed, Distribution? Distribution)
{
    /// <summary>The draws that a projection of the deck uses, learned from its surveys, as one input: each as likely as another.</summary>
    public static StudyInput SurveyedState { get; } =
        new(StudyVariable.SurveyedState, 0.5, new UniformDistribution(0, 1));

    /// <summary>Its name in tables.</summary>
    public string Name => StudyVariableInfo.Of(Variable).Name;

    /// <summary>Its canonical unit.</summary>
    public string Unit => StudyVariableInfo.Of(Variable).Unit;
}
