namespace DeckLife.Fitting;

/// <summary>The law of the errors of the slices about the model.</summary>
public enum ErrorLaw
{
    /// <summary>Normal: least squares.</summary>
    Normal,

    /// <summary>Student's t with 4 degrees of freedom: a slip of the laboratory or a mislabelled slice pulls little.</summary>
    Student,
}
