namespace DeckLife.Fitting;

/// <summary>The best linear part for one value of ln D.</summary>
/// <param name="LnDiffusion">ln(D / (mm²/yr)).</param>
/// <param name="Objective">Weighted sum of squares, or twice the negative log-likelihood.</param>
/// <param name="Slope">d objective / d ln D, the linear part following.</param>
/// <param name="Excess">Cs - C0 [kg/m³], at least 0.</param>
/// <param name="Background">C0 [kg/m³], at least 0.</param>
/// <param name="Scale">Scale of the errors at unit weight; NaN-free: 0 where the fit is exact.</param>
internal readonly record struct ProfilePoint(
    double LnDiffusion,
    double Objective,
    double Slope,
    double Excess,
    double Background,
    double Scale
)
{
    /// <summary>Cs [kg/m³].</summary>
    public double Surface => Background + Excess;
}
