using Microsoft.Playwright;

namespace MicRegister.Browser.Tests;

/// <summary>
/// A person before a page whose acts are counted: a key or chord, a word typed or scanned, a click, a drop, a choice in a list.
/// </summary>
internal sealed class Acts(IPage page)
{
    /// <summary>How many there were.</summary>
    public int Count { get; private set; }

    /// <summary>Presses a key or a chord.</summary>
    public Task Press(string keys) => Counted(page.Keyboard.PressAsync(keys));

    /// <summary>Types a word, or lets a scanner do it.</summary>
    public Task Type(string text) => Counted(page.Keyboard.TypeAsync(text));

    /// <summary>Clicks.</summary>
    public Task Click(ILocator what) => Counted(what.ClickAsync());

    /// <summary>Fills a field that has the cursor or gets it by the same act.</summary>
    public Task Fill(ILocator field, string text) => Counted(field.FillAsync(text));

    /// <summary>Drops files onto a zone, however many at once.</summary>
    public Task Drop(ILocator zone, params FilePayload[] files) => Counted(zone.SetInputFilesAsync(files));

    private Task Counted(Task act)
    {
        Count++;
        return act;
    }
}
