namespace MicRegister.Server.Pages.Parts;

/// <summary>How wide a field is in a line of them.</summary>
public enum FieldWidth
{
    /// <summary>For some words.</summary>
    Usual,

    /// <summary>For a few letters.</summary>
    Short,

    /// <summary>All that is left.</summary>
    Wide,
}
