namespace MicRegister.Server.Pages.Parts;

/// <summary>What was typed or pasted into a sheet.</summary>
/// <param name="Key">Key of the line.</param>
/// <param name="Column">Column, from 0.</param>
/// <param name="Text">A text; a block of cells where it holds tabs or ends of lines.</param>
public sealed record GridText(string Key, int Column, string Text)
{
    /// <summary>Whether it is more than one cell.</summary>
    public bool IsBlock => Text.AsSpan().Trim("\r\n").IndexOfAny('\t', '\n') >= 0;
}
