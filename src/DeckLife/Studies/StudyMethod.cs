namespace DeckLife.Studies;

/// <summary>A method that a study applies to all its outputs.</summary>
public abstract record StudyMethod
{
    /// <summary>Its name in study files and tables.</summary>
    public abstract string Name { get; }
}
