namespace DeckLife.Fitting;

/// <summary>The linear parameters that limits are sought for.</summary>
internal enum ProfileParameter
{
    /// <summary>Surface content Cs.</summary>
    Surface,

    /// <summary>Background content C0.</summary>
    Background,
}
