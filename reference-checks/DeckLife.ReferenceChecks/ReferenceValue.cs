namespace DeckLife.ReferenceChecks;

/// <summary>One number that the project must reproduce.</summary>
/// <param name="Name">What it is, with its unit and the inputs that distinguish it.</param>
/// <param name="Expected">The reference.</param>
/// <param name="Found">Computes the project's value.</param>
/// <param name="Tolerance">Allowed deviation: relative, or absolute when <paramref name="IsAbsolute"/>.</param>
/// <param name="IsAbsolute">Whether the tolerance is absolute, in the value's own unit.</param>
public sealed record ReferenceValue(
    string Name,
    double Expected,
    Func<double> Found,
    double Tolerance,
    bool IsAbsolute = false
);
