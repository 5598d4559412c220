namespace DeckLife.Numerics.Sensitivity;

/// <summary>Points at which a plan wants its function.</summary>
/// <param name="Count">Number of points.</param>
/// <param name="Columns">Values of the variables: one array a variable, each with at least <paramref name="Count"/> values.</param>
public sealed record EvaluationBlock(int Count, double[][] Columns);
