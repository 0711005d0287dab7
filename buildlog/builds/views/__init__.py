"""The pages of a build, a file for each side; every one comes in by the door (`buildlog.workshops.door`)."""
