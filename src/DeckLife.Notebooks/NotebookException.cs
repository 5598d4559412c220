namespace DeckLife.Notebooks;

/// <summary>A notebook or its parameters can't be used; the message says why and what is allowed.</summary>
public sealed class NotebookException : Exception
{
    /// <summary>Makes the exception.</summary>
    public NotebookException() { }

    /// <summary>Makes the exception.</summary>
    /// <param name="message">What is wrong, the value, what is allowed.</param>
    public NotebookException(string message)
        : base(message) { }

    /// <summary>Makes the exception.</summary>
    /// <param name="message">What is wrong, the value, what is allowed.</param>
    /// <param name="innerException">The cause.</param>
    public NotebookException(string message, Exception innerException)
        : base(message, innerException) { }
}
