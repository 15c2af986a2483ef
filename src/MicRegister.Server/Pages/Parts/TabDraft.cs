using Microsoft.JSInterop;

namespace MicRegister.Server.Pages.Parts;

/// <summary>
/// What is typed and not stored yet, kept by the browser's tab: it outlives a reload, a lost connection and a server that began anew, and
/// no other tab sees it.
/// </summary>
internal static class TabDraft
{
    /// <summary>What the tab keeps under a name; null where it keeps nothing, or is gone.</summary>
    public static async Task<string?> Of(IJSRuntime script, string name)
    {
        try
        {
            return await script.InvokeAsync<string?>("desk.kept", name);
        }
        catch (JSDisconnectedException)
        {
            return null;
        }
    }

    /// <summary>Lets the tab keep a text under a name, or forget it where there is none.</summary>
    /// <returns>False where the browser keeps nothing.</returns>
    public static async Task<bool> Keep(IJSRuntime script, string name, string? text)
    {
        try
        {
            return await script.InvokeAsync<bool?>("desk.keep", name, text) != false;
        }
        catch (JSDisconnectedException)
        {
            return true; // the page is gone; what it kept before stands
        }
    }
}
