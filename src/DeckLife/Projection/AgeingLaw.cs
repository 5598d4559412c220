namespace DeckLife.Projection;

/// <summary>D(age) = Dref (reference age/age)^m, constant after a stated age; the instantaneous law.</summary>
/// <param name="Exponent">m.</param>
/// <param name="ReferenceAgeYr">Age at which Dref holds [yr].</param>
/// <param name="AgeAtStartYr">Age at the start of the problem [yr].</param>
/// <param name="ConstantAfterYr">Age after which D stays constant [yr]; infinite: never.</param>
internal sealed record AgeingLaw(
    double Exponent,
    double ReferenceAgeYr,
    double AgeAtStartYr,
    double ConstantAfterYr
)
{
    /// <summary>No ageing.</summary>
    public static AgeingLaw None { get; } = new(0, 1, 1, double.PositiveInfinity);
}
