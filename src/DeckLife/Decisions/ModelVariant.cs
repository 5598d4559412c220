using System.Collections.Immutable;

namespace DeckLife.Decisions;

/// <summary>What the strategies come to under another form of the model.</summary>
/// <param name="Form">What is taken otherwise, in words.</param>
/// <param name="Lead">The strategy of least mean present value, else of longest mean life.</param>
/// <param name="ExpectedYears">For each strategy the mean years to its end, those beyond the horizon counted as the horizon [yr].</param>
/// <param name="ExpectedPresentValues">For each strategy the mean present value; empty without prices.</param>
public sealed record ModelVariant(
    string Form,
    string Lead,
    ImmutableArray<double> ExpectedYears,
    ImmutableArray<double> ExpectedPresentValues
);
