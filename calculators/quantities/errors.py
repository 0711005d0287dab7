"""The one error that wrong input raises, and the sentences that it carries."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong with what a person wrote.

    `says` is a whole sentence that states the fault and what would be accepted. `field` names the input
    (for a form) or the place in a file (`components[3].size.length`). `choices` holds the canonical
    writings to choose from where the input was ambiguous or nearly right. `value`, `limit` and `unit`
    carry the numbers where a limit was passed.
    """

    says: str
    field: str = ""
    choices: tuple[str, ...] = ()
    value: float | None = None
    limit: float | None = None
    unit: str = ""


class InputError(Exception):
    """Input that cannot be used, with a sentence for each fault.

    Args:
        faults: one or more `Fault`, in the order in which a person would meet them.

    Raises:
        TypeError: when it is made without a fault.

    Source: this project.

    Example:
        >>> str(InputError.of("A length may not be negative.", field="length"))
        'A length may not be negative.'
    """

    def __init__(self, *faults: Fault) -> None:
        if not faults:
            raise TypeError("an InputError needs at least one fault")
        self.faults = faults
        super().__init__("\n".join(fault.says for fault in faults))

    @classmethod
    def of(
        cls,
        says: str,
        *,
        field: str = "",
        choices: tuple[str, ...] = (),
        value: float | None = None,
        limit: float | None = None,
        unit: str = "",
    ) -> InputError:
        """Make an error of one fault; the arguments are those of `Fault`."""
        return cls(Fault(says, field, choices, value, limit, unit))

    def at(self, prefix: str) -> InputError:
        """Return the same faults with `prefix` put before each field, as a file reader needs it."""
        return InputError(
            *(
                Fault(
                    fault.says,
                    f"{prefix}.{fault.field}" if fault.field else prefix,
                    fault.choices,
                    fault.value,
                    fault.limit,
                    fault.unit,
                )
                for fault in self.faults
            )
        )
