namespace DeckLife.Data.Studies;

/// <summary>One number of a study's results, as a row of its tables.</summary>
/// <param name="MethodNumber">Number of the method in the study, from 1.</param>
/// <param name="Method">The method.</param>
/// <param name="Output">The output.</param>
/// <param name="Input">The input or inputs it is about, joined by +; empty for the output as a whole.</param>
/// <param name="Quantity">What the number is.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Value">The number; absent where there is none.</param>
/// <param name="Lower">Lower 95 % limit, where there is one.</param>
/// <param name="Upper">Upper 95 % limit, where there is one.</param>
/// <param name="Samples">Number of draws or points behind it.</param>
/// <param name="Remark">The verdict, or why there is no number.</param>
public sealed record StudyRow(
    int MethodNumber,
    string Method,
    string Output,
    string Input,
    string Quantity,
    string Unit,
    double? Value,
    double? Lower,
    double? Upper,
    long Samples,
    string Remark
);
