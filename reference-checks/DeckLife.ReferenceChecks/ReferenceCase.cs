namespace DeckLife.ReferenceChecks;

/// <summary>A group of reference values with one source.</summary>
/// <param name="Id">Short name, unique: <c>transport/half-space</c>. The part before the slash is the section.</param>
/// <param name="Title">What is checked, in words.</param>
/// <param name="Inputs">The inputs, with units.</param>
/// <param name="Source">Author, title, year, equation or table; or the formula for values computed independently.</param>
/// <param name="How">How the reference values were got.</param>
/// <param name="WhyTolerance">Why the tolerance is what it is.</param>
/// <param name="Values">The values.</param>
public sealed record ReferenceCase(
    string Id,
    string Title,
    string Inputs,
    string Source,
    HowGot How,
    string WhyTolerance,
    IReadOnlyList<ReferenceValue> Values
)
{
    /// <summary>A disagreement that is known, kept and explained; absent: every value must agree.</summary>
    public string? KnownDisagreement { get; init; }
}
