namespace DeckLife.Fitting;

/// <summary>One slice of a fit: what was measured and what the model says.</summary>
/// <param name="Row">The line of the file, the head counted.</param>
/// <param name="TopMm">Top [mm].</param>
/// <param name="BottomMm">Bottom [mm]; equal to the top when fitted as a point.</param>
/// <param name="Measured">Content, or the detection limit [kg/m³].</param>
/// <param name="IsNonDetect">Whether the content is a detection limit.</param>
/// <param name="Fitted">The model's content of the slice [kg/m³].</param>
/// <param name="StandardDeviation">The standard deviation that the fit gives the slice's error [kg/m³].</param>
/// <param name="Weight">How far the slice counts under the law of the errors: 1, or less for a slip under Student's t.</param>
public sealed record FittedSlice(
    int Row,
    double TopMm,
    double BottomMm,
    double Measured,
    bool IsNonDetect,
    double Fitted,
    double StandardDeviation,
    double Weight
);
