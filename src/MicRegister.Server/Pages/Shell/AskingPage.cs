using Microsoft.AspNetCore.Components;

namespace MicRegister.Server.Pages.Shell;

/// <summary>
/// What a dialog asks for before the register. It begins anew each time it is opened, and why something is refused stands in it, beside
/// what was typed.
/// </summary>
public abstract class AskingPage : RegisterPage
{
    private bool _wasOpen;

    /// <summary>Whether it stands open.</summary>
    [Parameter] public bool Open { get; set; }

    [Parameter] public EventCallback<bool> OpenChanged { get; set; }

    /// <summary>Told once something was stored.</summary>
    [Parameter] public EventCallback OnChanged { get; set; }

    /// <summary>Why it was refused last; null where nothing was.</summary>
    protected string? Problem { get; private set; }

    protected override void OnParametersSet()
    {
        if (Open && !_wasOpen)
        {
            Problem = null;
            SeeAnew();
            Begin();
        }
        _wasOpen = Open;
    }

    /// <summary>Fills the fields as they stand before anybody typed.</summary>
    protected abstract void Begin();

    protected Task Shut(bool open) => OpenChanged.InvokeAsync(open);

    /// <summary>Ends what was stored: says so, offers to take it back, and tells who waits for it.</summary>
    /// <param name="isStored">Whether it was stored; where not, the dialog stays.</param>
    /// <param name="words">What was stored.</param>
    protected async Task<bool> Told(bool isStored, string words)
    {
        if (!isStored) return false;
        Problem = null;
        SayStored(words);
        await OnChanged.InvokeAsync();
        return true;
    }

    protected override void Refuse(string why)
    {
        // What is refused after the dialog is gone, such as taking back what it stored, has to be said elsewhere.
        if (!Open)
        {
            base.Refuse(why);
            return;
        }
        Problem = why;
        StateHasChanged();
    }
}
